// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <fstream>
#include <iterator>
#include <string>

namespace loopside::scene {

inline const std::string screensPath = LOOPSIDE_SOURCE_DIR "/docs/screens.md";

[[nodiscard]] inline std::string screensDocument()
{
    std::ifstream file(screensPath, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace loopside::scene
