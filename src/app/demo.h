// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string_view>

namespace loopside::app {

/// The invented site and its invented shift, as they stand in assets/demo.
[[nodiscard]] std::string_view demoSite();
[[nodiscard]] std::string_view demoShift();

/// Short invented runs, each up to the set that raises a finding, an alert or a question.
[[nodiscard]] std::string_view demoScenes();

} // namespace loopside::app
