// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run as rich text, with places (document_picture.h) for its QR code, its curve and its pictures.

#pragma once

#include "report/pictures.h"
#include "report/record.h"

#include <QString>

#include <cstddef>
#include <span>
#include <string>

namespace loopside::paper {

inline constexpr std::size_t sealPlace = 0;
inline constexpr std::size_t chartPlace = 1;
inline constexpr std::size_t firstPicturePlace = 2;

/// A picture as far as it can be shown.
struct PictureShown
{
    report::AttachmentTold told;
    std::string trouble = {}; ///< Why it cannot be shown; empty: it can.
};

/// How all of them look.
[[nodiscard]] QString recordStyleSheet();

/// What the first page tells; at the right of its head `sealDots` (of 96 an inch) for the QR code.
[[nodiscard]] QString frontHtml(const report::RunRecord& record, const words::Words& words, int sealDots);
/// What the pages behind it tell.
[[nodiscard]] QString behindHtml(const report::RunRecord& record);
/// The pictures two by two, each with its caption.
[[nodiscard]] QString picturesHtml(std::span<const PictureShown> pictures, const words::Words& words);

} // namespace loopside::paper
