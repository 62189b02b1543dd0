// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QByteArray>
#include <QImage>

namespace loopside::app {

/// `image` as a JPEG that fits into an attachment: its longer side at most 1600 pixels, then as much less quality and
/// size as it takes. Empty for an empty image.
[[nodiscard]] QByteArray photoBytes(const QImage& image);

/// `image` as a PNG that fits into an attachment, smaller if it has to be. Empty for an empty image.
[[nodiscard]] QByteArray drawingBytes(const QImage& image);

/// A picture file as a person would see it, turned the right way; empty if it is no picture or larger than a camera
/// takes.
[[nodiscard]] QImage pictureIn(const QString& path);

} // namespace loopside::app
