// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QImage>

#include <string_view>

namespace loopside::paper {

/// `text` (ASCII, at most some 300 signs) as a QR code that a quarter may be hidden of, with its quiet zone, black on
/// white; `modulePx` pixels for each of its squares.
[[nodiscard]] QImage qrImage(std::string_view text, int modulePx);

} // namespace loopside::paper
