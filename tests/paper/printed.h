// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What was printed, read back by other programs: words by pdftotext, pictures of pages by pdftoppm, attached files by
// pdfdetach (poppler-utils), QR codes by ZXing.

#pragma once

#include "store/temp_folder.h"

#include <QImage>

#include <string>

namespace loopside::test {

/// A PDF as a file.
class Printed
{
public:
    explicit Printed(const std::string& pdf);

    /// The words of its pages from `first` to `last`, or to its end, in the order in which they were written; blanks of
    /// all kinds and line breaks as single blanks.
    [[nodiscard]] std::string words(int first = 1, int last = 0) const;
    /// What pdfinfo tells.
    [[nodiscard]] std::string about() const;
    /// A page, from 1, as it is seen at 200 dots an inch.
    [[nodiscard]] QImage page(int number) const;
    /// The first file that is attached.
    [[nodiscard]] std::string attached() const;

private:
    TempFolder folder_;
    std::string path_ = folder_.file("printed.pdf");
};

/// What the QR code on `picture` says; empty where there is none.
[[nodiscard]] std::string qrIn(const QImage& picture);

/// No-break spaces as blanks.
[[nodiscard]] std::string withPlainBlanks(const std::string& text);

} // namespace loopside::test
