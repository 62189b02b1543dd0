// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QImage>

#include <optional>
#include <string>

namespace loopside::paper {

/// What the code in `picture` says, as it is printed on tags: QR code, Data Matrix, Code 128 or Code 39, however it is
/// turned. Nothing if there is none, if it cannot be read to its own check signs, or if it says nothing.
[[nodiscard]] std::optional<std::string> tagIn(const QImage& picture);

} // namespace loopside::paper
