// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/curve.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::paper {

QList<QPointF> thinned(const QList<QPointF>& points)
{
    const auto isLower = [](const QPointF& a, const QPointF& b) { return a.y() < b.y(); };
    QList<QPointF> kept;
    for (auto first = points.begin(); first != points.end();) {
        const double column = std::floor(first->x());
        const auto next = std::find_if(first, points.end(),
                                       [&](const QPointF& p) { return std::floor(p.x()) != column; });
        const auto [lowest, highest] = std::minmax_element(first, next, isLower);
        std::array chosen{first == points.begin() ? first : lowest, lowest, highest,
                          next == points.end() ? next - 1 : highest};
        std::ranges::sort(chosen);
        const auto doubles = std::ranges::unique(chosen);
        std::for_each(chosen.begin(), doubles.begin(), [&](auto point) { kept.append(*point); });
        first = next;
    }
    return kept;
}

QList<QLineF> joined(const QList<QPointF>& points)
{
    QList<QLineF> lines;
    for (qsizetype i = 1; i < points.size(); ++i) {
        lines.append(QLineF(points[i - 1], points[i]));
    }
    return lines;
}

QList<QLineF> broken(const QList<QPointF>& points, double dash, double gap)
{
    QList<QLineF> dashes;
    bool isDash = true;
    double left = dash; // of the dash or gap that is being laid
    for (const QLineF& line : joined(points)) {
        const double length = line.length();
        double ahead = length;
        while (ahead > 0.0) {
            const double piece = std::min(left, ahead);
            if (isDash) {
                dashes.append(QLineF(line.pointAt(1.0 - ahead / length), line.pointAt(1.0 - (ahead - piece) / length)));
            }
            ahead -= piece;
            left -= piece;
            if (left <= 0.0) {
                isDash = !isDash;
                left = isDash ? dash : gap;
            }
        }
    }
    return dashes;
}

} // namespace loopside::paper
