// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pictures that are painted into a text document as it is painted itself: as lines, not as points.

#pragma once

#include "paper/trend.h"

#include <QImage>
#include <QSizeF>
#include <QTextDocument>

namespace loopside::paper {

enum class Picture
{
    Seal, ///< The QR code.
    Chart
};

/// What they show. Outlives the document. Sizes in dots of the paint device.
struct DocumentPictures
{
    QImage seal;
    QSizeF sealSize;
    Trend trend;
    TrendStyle style;
    QSizeF chartSize;
};

/// Text to stand where a picture comes; no person's text has it.
[[nodiscard]] QString placeOf(Picture picture);

/// Puts each picture where its text stands, if it does.
void insertPictures(QTextDocument& document, const DocumentPictures& pictures);

} // namespace loopside::paper
