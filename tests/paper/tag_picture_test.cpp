// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/tag_picture.h"

#include "paper/qr.h"

#include <QTransform>

#include <ZXing/BarcodeFormat.h>
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <catch2/catch.hpp>

#include <random>

using namespace loopside;
using paper::tagIn;

namespace {

QImage tagOf(ZXing::BarcodeFormat format, const std::string& text)
{
    const auto bars = ZXing::MultiFormatWriter(format).setMargin(10).encode(text, 400, 120);
    QImage image(bars.width(), bars.height(), QImage::Format_Grayscale8);
    for (int y = 0; y < bars.height(); ++y) {
        for (int x = 0; x < bars.width(); ++x) {
            image.scanLine(y)[x] = bars.get(x, y) ? 0 : 255;
        }
    }
    return image;
}

/// `tag` somewhere on a grey wall, as a camera has it: grainy and with little contrast.
QImage onWall(const QImage& tag, int widthPx)
{
    QImage wall(widthPx, widthPx * 3 / 4, QImage::Format_Grayscale8);
    std::mt19937 random(3);
    std::uniform_int_distribution<int> grain(-12, 12);
    const QImage grey = tag.convertToFormat(QImage::Format_Grayscale8);
    for (int y = 0; y < wall.height(); ++y) {
        for (int x = 0; x < wall.width(); ++x) {
            const int tagX = x - (wall.width() - grey.width()) / 2;
            const int tagY = y - (wall.height() - grey.height()) / 3;
            const bool isTag = grey.rect().contains(tagX, tagY);
            const int shade = isTag ? 60 + grey.constScanLine(tagY)[tagX] / 2 : 150;
            wall.scanLine(y)[x] = static_cast<uchar>(shade + grain(random));
        }
    }
    return wall;
}

} // namespace

TEST_CASE("a tag is read whichever code it bears")
{
    const auto format = GENERATE(ZXing::BarcodeFormat::QRCode, ZXing::BarcodeFormat::DataMatrix,
                                 ZXing::BarcodeFormat::Code128, ZXing::BarcodeFormat::Code39);
    CHECK(tagIn(tagOf(format, "BM-HY-012")) == "BM-HY-012");
}

TEST_CASE("a tag is read as a camera sees it: small on a wall, grainy, turned, in a large picture")
{
    const QImage tag = paper::qrImage("BM-HY-012", 6);
    CHECK(tagIn(onWall(tag, 640)) == "BM-HY-012");
    CHECK(tagIn(onWall(paper::qrImage("BM-HY-012", 12), 3000)) == "BM-HY-012");
    for (const int degrees : {90, 180, 270, 20}) {
        CAPTURE(degrees);
        CHECK(tagIn(onWall(tag, 640).transformed(QTransform().rotate(degrees))) == "BM-HY-012");
    }
}

TEST_CASE("where no tag is, none is read, nor one of which too much is hidden")
{
    CHECK_FALSE(tagIn({}));
    QImage wall(640, 480, QImage::Format_RGB32);
    wall.fill(Qt::white);
    CHECK_FALSE(tagIn(wall));
    QImage half = paper::qrImage("BM-HY-012", 6);
    for (int y = half.height() / 2; y < half.height(); ++y) {
        std::fill_n(half.scanLine(y), half.bytesPerLine(), uchar{255});
    }
    CHECK_FALSE(tagIn(half));
}
