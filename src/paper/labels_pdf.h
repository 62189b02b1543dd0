// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Labels of 80 mm by 50 mm, each with a QR code that says `Label::code`. What is long is written smaller, never cut.

#pragma once

#include "report/labels.h"

#include <string>
#include <vector>

namespace loopside::paper {

/// A PDF with a label on each page.
[[nodiscard]] std::string labelsPdf(const words::Words& words, const std::vector<report::Label>& labels);

/// One as a PNG of 300 dots an inch.
[[nodiscard]] std::string labelPng(const words::Words& words, const report::Label& label);

} // namespace loopside::paper
