// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <string_view>

namespace loopside::story {

/// Whether a story may expect this finding, question or alert. Ids that later work will compute are known already.
[[nodiscard]] bool isFinding(std::string_view id);
[[nodiscard]] bool isQuestion(std::string_view id);
[[nodiscard]] bool isAlert(std::string_view id);

} // namespace loopside::story
