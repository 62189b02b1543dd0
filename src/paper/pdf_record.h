// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The file of a record out of its PDF, where it lies attached (record_pdf.h): so an auditor checks the paper itself.
// Library: qpdf.

#pragma once

#include "base/result.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace loopside::paper {

/// No PDF of a record is larger: pictures are made smaller before they go into it.
inline constexpr std::size_t pdfBytesMax = std::size_t{64} << 20U;

[[nodiscard]] bool isPdf(std::string_view content);

/// The attached file whose name ends with ".json", at most `bytesMax` long. NotFound if there is none, Malformed if
/// `pdf` is none that can be read.
[[nodiscard]] Result<std::string> recordAttached(std::string_view pdf, std::size_t bytesMax);

} // namespace loopside::paper
