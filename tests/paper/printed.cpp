// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "printed.h"

#include "base/require.h"

#include <QFile>

#define ZX_USE_UTF8 // text() as later versions of ZXing have it
#include <ZXing/BarcodeFormat.h>
#include <ZXing/DecodeHints.h>
#include <ZXing/ReadBarcode.h>

#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>

namespace loopside::test {

namespace {

/// What `command` prints.
std::string outputOf(const std::string& command)
{
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    require(pipe != nullptr, "the command starts");
    std::string text;
    for (int sign = 0; (sign = std::fgetc(pipe.get())) != EOF;) {
        text += static_cast<char>(sign);
    }
    return text;
}

} // namespace

Printed::Printed(const std::string& pdf)
{
    std::ofstream(path_, std::ios::binary) << pdf;
}

std::string Printed::words(int first, int last) const
{
    const std::string to = last > 0 ? " -l " + std::to_string(last) : std::string();
    std::istringstream text(
        withPlainBlanks(outputOf("pdftotext -raw -f " + std::to_string(first) + to + " " + path_ + " -")));
    std::string all;
    for (std::string word; text >> word;) {
        all += word + " ";
    }
    return all;
}

std::string Printed::about() const
{
    return outputOf("pdfinfo " + path_);
}

QImage Printed::page(int number) const
{
    const std::string page = std::to_string(number);
    outputOf("pdftoppm -r 200 -png -singlefile -f " + page + " -l " + page + " " + path_ + " " + folder_.file("page"));
    return QImage(QString::fromStdString(folder_.file("page.png")));
}

std::string Printed::attached() const
{
    outputOf("pdfdetach -save 1 -o " + folder_.file("attached.json") + " " + path_);
    QFile file(QString::fromStdString(folder_.file("attached.json")));
    require(file.open(QIODevice::ReadOnly), "a file is attached");
    return file.readAll().toStdString();
}

std::string qrIn(const QImage& picture)
{
    const QImage grey = picture.convertToFormat(QImage::Format_Grayscale8);
    const ZXing::ImageView view(grey.constBits(), grey.width(), grey.height(), ZXing::ImageFormat::Lum,
                                static_cast<int>(grey.bytesPerLine()));
    return ZXing::ReadBarcode(view, ZXing::DecodeHints().setFormats(ZXing::BarcodeFormat::QRCode)).text();
}

std::string withPlainBlanks(const std::string& text)
{
    return QString::fromStdString(text).replace(QChar::Nbsp, QLatin1Char(' ')).toStdString();
}

} // namespace loopside::test
