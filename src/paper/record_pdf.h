// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run on paper, the same every time. The first page tells what it came to: verdict, curve, bottles,
// elements, cost and signatures; the pages behind it what was found, how it was decided, every alert, reading and
// entry. On each page stand the run's code and the digest of its entries; the QR code of the first is what
// `loopside-cli verify` holds the record's JSON against. That JSON is attached to the PDF itself.

#pragma once

#include "base/result.h"
#include "report/record_file.h"

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

/// `file` as a PDF, the same to the byte each time: no clock goes into it. Where there is no QGuiApplication, one
/// without a screen is made for good. Fails as of `report::recordOf`.
[[nodiscard]] Result<std::string> recordPdf(const report::RecordFile& file, PaperSize size);

} // namespace loopside::paper
