// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/qr.h"

#include <ZXing/BarcodeFormat.h>
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>

#include <string>

namespace loopside::paper {

QImage qrImage(std::string_view text, int modulePx)
{
    constexpr int quietModules = 4; // ISO/IEC 18004 asks for four; from memory
    constexpr int quarterLevel = 6; // 0 to 8 in this library: Q
    const auto modules = ZXing::MultiFormatWriter(ZXing::BarcodeFormat::QRCode)
                             .setMargin(quietModules)
                             .setEccLevel(quarterLevel)
                             .encode(std::string(text), 0, 0);
    QImage image(modules.width(), modules.height(), QImage::Format_Grayscale8);
    for (int y = 0; y < modules.height(); ++y) {
        for (int x = 0; x < modules.width(); ++x) {
            image.scanLine(y)[x] = modules.get(x, y) ? 0 : 255;
        }
    }
    return image.scaled(image.size() * modulePx);
}

} // namespace loopside::paper
