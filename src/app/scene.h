// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "story/story.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::app {

/// A short run up to the set that shows something; what it shows, where it is not empty.
struct Scene
{
    std::string name;
    std::string finding;
    std::string alert;
    std::string question;
    story::Story
        story; ///< Its entries are in the order in which they were entered, and say nothing but what is `Said`.
};

/// Reads scenes as they stand in assets/demo/scenes.json: stories that share cart, target and elements. Refused are a
/// scene that is no story, and one that does more than say something.
[[nodiscard]] Result<std::vector<Scene>> readScenes(std::string_view text);

} // namespace loopside::app
