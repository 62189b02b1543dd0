// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/picture.h"

#include "paper/gui.h"

namespace loopside::test {

paper::TrendStyle distinctStyle()
{
    paper::TrendStyle style;
    style.ground = QColor(255, 255, 255);
    style.ink = QColor(0, 0, 0);
    style.dim = QColor(90, 90, 90);
    style.line = QColor(200, 200, 200);
    style.limit = QColor(255, 0, 0);
    style.shade = QColor(240, 240, 100);
    style.stages = {QColor(0, 0, 255), QColor(0, 128, 0), QColor(0, 160, 160)};
    style.family = QStringLiteral("B612");
    return style;
}

QImage painted(const paper::Trend& trend, QSize size, const paper::TrendStyle& style)
{
    paper::startGui();
    QImage picture(size + QSize(2 * margin, 2 * margin), QImage::Format_RGB32);
    picture.fill(outside);
    QPainter painter(&picture);
    paper::paintTrend(painter, QRectF(QPointF(margin, margin), QSizeF(size)), trend, style);
    return picture;
}

QRect around(const QImage& picture, const std::function<bool(int x, int y)>& isMeant)
{
    QRect found;
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            if (isMeant(x, y)) {
                found |= QRect(x, y, 1, 1);
            }
        }
    }
    return found;
}

QRect around(const QImage& picture, const QColor& colour, const QRect& within)
{
    return around(picture, [&](int x, int y) { return within.contains(x, y) && picture.pixel(x, y) == colour.rgb(); });
}

int count(const QImage& picture, const QColor& colour, const QRect& within)
{
    int found = 0;
    for (int y = within.top(); y <= within.bottom(); ++y) {
        for (int x = within.left(); x <= within.right(); ++x) {
            found += picture.pixel(x, y) == colour.rgb() ? 1 : 0;
        }
    }
    return found;
}

QList<double> longLines(const QImage& picture, const QColor& colour)
{
    QList<double> middles;
    int first = -1;
    for (int y = 0; y < picture.height(); ++y) {
        const bool isLong = count(picture, colour, QRect(0, y, picture.width(), 1)) >= picture.width() / 2;
        if (isLong && first < 0) {
            first = y;
        }
        if (!isLong && first >= 0) {
            middles.append((first + y - 1) / 2.0);
            first = -1;
        }
    }
    return middles;
}

} // namespace loopside::test
