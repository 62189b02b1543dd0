// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QPainterPath>
#include <QStringView>

#include <optional>

namespace loopside::app {

/// Reads the path of a figure: the letters M, L, C and Z of an SVG path (SVG 1.1, 8.3), each with absolute numbers
/// behind it, parted by blanks or commas. More pairs behind M are lines, more behind L and C more of the same. An empty
/// text is an empty path; nothing if it is no such path: another letter, too few numbers, one that is not finite, or a
/// beginning without M.
[[nodiscard]] std::optional<QPainterPath> figurePath(QStringView text);

} // namespace loopside::app
