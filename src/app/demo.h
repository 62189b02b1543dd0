// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string_view>

namespace loopside::app {

/// The invented site and its invented shift, as they stand in assets/demo.
[[nodiscard]] std::string_view demoSite();
[[nodiscard]] std::string_view demoShift();

} // namespace loopside::app
