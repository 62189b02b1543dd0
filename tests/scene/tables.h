// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The tables of docs/screens.md as text.

#pragma once

#include "audit.h"
#include "base/result.h"
#include "keystrokes.h"

#include <string>

namespace loopside::scene {

/// One row a kind of target: the smallest that was seen on any screen.
[[nodiscard]] std::string targetTable(const Found& found);
/// One row a pair of colours in a theme.
[[nodiscard]] std::string contrastTable(const Found& found);
/// One row a task.
[[nodiscard]] std::string keystrokeTable(const std::vector<Timed>& timed);

/// The table that stands between the marks of `name`; Malformed if there are none.
[[nodiscard]] Result<std::string> tableIn(const std::string& document, const std::string& name);
/// `document` with `table` there instead.
[[nodiscard]] Result<std::string> withTable(const std::string& document, const std::string& name,
                                            const std::string& table);

} // namespace loopside::scene
