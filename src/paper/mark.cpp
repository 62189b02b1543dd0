// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/mark.h"

#include <QPolygonF>

namespace loopside::paper {

void paintMark(QPainter& painter, const QPointF& at, qsizetype curve, const QColor& line, const QColor& fill,
               double radius, double width)
{
    const double r = radius;
    painter.setPen(QPen(line, width));
    painter.setBrush(fill);
    switch (curve % 3) {
    case 0:
        painter.drawEllipse(at, r, r);
        break;
    case 1:
        painter.drawRect(QRectF(at.x() - 0.9 * r, at.y() - 0.9 * r, 1.8 * r, 1.8 * r));
        break;
    default:
        painter.drawPolygon(
            QPolygonF({at + QPointF(0.0, -1.1 * r), at + QPointF(1.1 * r, 0.8 * r), at + QPointF(-1.1 * r, 0.8 * r)}));
    }
}

} // namespace loopside::paper
