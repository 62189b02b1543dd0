// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/tag_picture.h"

#define ZX_USE_UTF8 // text() as later versions of ZXing have it
#include <ZXing/ReadBarcode.h>

#include <algorithm>

namespace loopside::paper {

namespace {

constexpr int widestPx = 1280; ///< More takes longer and reads no more of a tag that fills a third of the picture.

} // namespace

std::optional<std::string> tagIn(const QImage& picture)
{
    if (picture.isNull()) {
        return std::nullopt;
    }
    const QImage small = std::max(picture.width(), picture.height()) > widestPx
        ? picture.scaled(widestPx, widestPx, Qt::KeepAspectRatio, Qt::SmoothTransformation)
        : picture;
    const QImage grey = small.convertToFormat(QImage::Format_Grayscale8);
    const ZXing::ImageView view(grey.constBits(), grey.width(), grey.height(), ZXing::ImageFormat::Lum,
                                static_cast<int>(grey.bytesPerLine()));
    const auto formats = ZXing::BarcodeFormat::QRCode | ZXing::BarcodeFormat::DataMatrix | ZXing::BarcodeFormat::Code128
        | ZXing::BarcodeFormat::Code39;
    const ZXing::Result read = ZXing::ReadBarcode(view, ZXing::DecodeHints().setFormats(formats).setTryRotate(true));
    return read.isValid() && !read.text().empty() ? std::optional(read.text()) : std::nullopt;
}

} // namespace loopside::paper
