// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run on paper, the same every time. The first page tells what it came to: verdict, curve, bottles,
// elements, cost and signatures; the pages behind it what was found, how it was decided, every alert, reading and
// entry. On each page stand the run's code and the digest of its entries; the QR code of the first is what
// `loopside-cli verify` holds the record's JSON against. That JSON is attached to the PDF itself.

#pragma once

#include "base/result.h"
#include "report/record_file.h"

#include <functional>
#include <string>
#include <string_view>

namespace loopside::paper {

enum class PaperSize
{
    A4,
    Letter
};

/// "A4" or "Letter", in small letters or not; NotFound for anything else.
[[nodiscard]] Result<PaperSize> paperSizeNamed(std::string_view name);

/// The content of the attachment that is named by `hash`; fails with why there is none.
using PictureBy = std::function<Result<std::string>(const std::string& hash)>;

/// `file` as a PDF, the same to the byte each time in one program, and by the command line in each: no clock goes into
/// it. Behind its tables stand the pictures of the run that `pictureBy` gives, and where it gives none, why; without it
/// no picture is asked for. Where there is no QGuiApplication, one without a screen is made for good. Fails as of
/// `report::recordOf`.
[[nodiscard]] Result<std::string> recordPdf(const report::RecordFile& file, PaperSize size,
                                            const PictureBy& pictureBy = {});

} // namespace loopside::paper
