// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QColor>
#include <QPainter>
#include <QPointF>

namespace loopside::paper {

/// The mark of a curve at `at`: circle, square and triangle in turn. `radius` in pixels of the painter.
void paintMark(QPainter& painter, const QPointF& at, qsizetype curve, const QColor& line, const QColor& fill,
               double radius, double width);

} // namespace loopside::paper
