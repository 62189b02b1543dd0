// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/picture_bytes.h"

#include "run/notes.h"

#include <QBuffer>
#include <QDir>
#include <QFile>
#include <QImageReader>
#include <QPainter>

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

/// A photo keeps nothing of what is see-through.
QImage onWhite(const QImage& image)
{
    if (!image.hasAlphaChannel()) {
        return image;
    }
    QImage white(image.size(), QImage::Format_RGB32);
    white.fill(Qt::white);
    QPainter(&white).drawImage(0, 0, image);
    return white;
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
    return fitting(onWhite(image), "JPG", {85, 70, 55});
}

QByteArray drawingBytes(const QImage& image)
{
    return fitting(image, "PNG", {-1});
}

QFileInfoList picturesIn(const QString& folder)
{
    const QStringList names = {QStringLiteral("*.jpg"), QStringLiteral("*.jpeg"), QStringLiteral("*.png"),
                               QStringLiteral("*.bmp")};
    return QDir(folder).entryInfoList(names, QDir::Files, QDir::Time);
}

PictureRead pictureIn(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        return {.fault = "app.note.unreadable"};
    }
    QImageReader reader(&file);
    reader.setDecideFormatFromContent(true); // whatever its name says
    reader.setAutoTransform(true);
    const QSize size = reader.size();
    if (std::max(size.width(), size.height()) > longestSide) {
        reader.setScaledSize(size.scaled(longestSide, longestSide, Qt::KeepAspectRatio));
    }
    QImage picture = reader.read();
    if (!picture.isNull()) {
        return {.picture = std::move(picture)};
    }
    const bool isLarge = 4 * static_cast<qint64>(size.width()) * size.height()
        > static_cast<qint64>(QImageReader::allocationLimit()) * 1024 * 1024;
    return {.fault = isLarge ? "app.note.too-large" : "app.note.no-picture"};
}

} // namespace loopside::app
