// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <functional>
#include <optional>
#include <string>

namespace loopside::support {

/// Runs `act` in a process of its own and gives back what it wrote to standard error if it was stopped by abort, as
/// `require` does; nothing if it came back, or ended in any other way.
[[nodiscard]] std::optional<std::string> lastWords(const std::function<void()>& act);

} // namespace loopside::support
