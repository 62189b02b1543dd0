// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QByteArray>
#include <QFileInfo>
#include <QImage>

namespace loopside::app {

/// `image` as a JPEG that fits into an attachment: its longer side at most 1600 pixels, then as much less quality and
/// size as it takes. Empty for an empty image.
[[nodiscard]] QByteArray photoBytes(const QImage& image);

/// `image` as a PNG that fits into an attachment, smaller if it has to be. Empty for an empty image.
[[nodiscard]] QByteArray drawingBytes(const QImage& image);

/// The pictures in `folder` as their names tell them, the youngest first; a file that is none is found out when it is
/// read.
[[nodiscard]] QFileInfoList picturesIn(const QString& folder);

struct PictureRead
{
    QImage picture = {};
    const char* fault = nullptr; ///< The sentence that says why there is none.
};

/// A picture file as a person would see it, turned the right way, no larger than it can be kept. One that is not to be
/// read, is no picture or takes more memory than a tablet has to spare is told as such.
[[nodiscard]] PictureRead pictureIn(const QString& path);

} // namespace loopside::app
