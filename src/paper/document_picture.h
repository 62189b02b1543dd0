// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pictures that are painted into a text document as it is painted itself: as lines, not as points.

#pragma once

#include <QSizeF>
#include <QString>
#include <QTextDocument>

#include <cstddef>
#include <functional>
#include <vector>

class QPainter;

namespace loopside::paper {

struct DocumentPicture
{
    QSizeF size; ///< In dots of the paint device.
    std::function<void(QPainter&, const QRectF&)> paint;
};

/// So many pictures can stand in a document.
inline constexpr std::size_t documentPicturesMax = 1000;

/// Text to stand where the picture number `picture`, from 0, comes; no person's text has it.
[[nodiscard]] QString placeOf(std::size_t picture);

/// Puts each of `pictures`, which outlive the document, where its text stands, if it does.
void insertPictures(QTextDocument& document, const std::vector<DocumentPicture>& pictures);

} // namespace loopside::paper
