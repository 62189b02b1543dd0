// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/picture_bytes.h"

#include "run/notes.h"

#include <QBuffer>
#include <QImageReader>

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr int longestSide = 1600;
constexpr double smaller = 0.75;

QByteArray encoded(const QImage& image, const char* format, int quality)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format, quality);
    return bytes;
}

QImage scaled(const QImage& image, int side)
{
    return std::max(image.width(), image.height()) <= side
        ? image
        : image.scaled(side, side, Qt::KeepAspectRatio, Qt::SmoothTransformation);
}

/// The first that fits, of falling quality, then of falling size.
QByteArray fitting(const QImage& image, const char* format, std::initializer_list<int> qualities)
{
    if (image.isNull()) {
        return {};
    }
    for (double side = longestSide; side > 16.0; side *= smaller) {
        const QImage candidate = scaled(image, static_cast<int>(side));
        for (const int quality : qualities) {
            QByteArray bytes = encoded(candidate, format, quality);
            if (bytes.size() <= run::attachmentBytesMax) {
                return bytes;
            }
        }
    }
    return {};
}

} // namespace

QByteArray photoBytes(const QImage& image)
{
    return fitting(image, "JPG", {85, 70, 55});
}

QByteArray drawingBytes(const QImage& image)
{
    return fitting(image, "PNG", {-1});
}

QImage pictureIn(const QString& path)
{
    QImageReader reader(path);
    reader.setAutoTransform(true);
    return reader.read();
}

} // namespace loopside::app
