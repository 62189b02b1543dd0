// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/label_places.h"

#include <algorithm>

namespace loopside::paper {

namespace {

/// A line that enters a rectangle ends in it or crosses one of its diagonals.
bool crosses(const QLineF& line, const QRectF& place)
{
    if (std::max(line.x1(), line.x2()) < place.left() || std::min(line.x1(), line.x2()) > place.right()
        || std::max(line.y1(), line.y2()) < place.top() || std::min(line.y1(), line.y2()) > place.bottom()) {
        return false;
    }
    const auto meets = [&](const QPointF& from, const QPointF& to) {
        return line.intersects(QLineF(from, to)) == QLineF::BoundedIntersection;
    };
    return place.contains(line.p1()) || place.contains(line.p2()) || meets(place.topLeft(), place.bottomRight())
        || meets(place.bottomLeft(), place.topRight());
}

} // namespace

std::optional<QRectF> LabelPlaces::take(const QList<QRectF>& candidates, int most)
{
    std::optional<QRectF> best;
    for (const QRectF& place : candidates) {
        if (!isFree(place)) {
            continue;
        }
        const int lines = linesOver(place, most);
        if (lines < most || (lines == most && !best)) {
            best = place;
            most = lines;
        }
        if (best && most == 0) {
            break;
        }
    }
    if (best) {
        taken_.append(best->adjusted(-apart_, 0.0, apart_, 0.0));
    }
    return best;
}

int LabelPlaces::linesOver(const QRectF& place, int most) const
{
    int count = 0;
    for (auto line = lines_.begin(); line != lines_.end() && count <= most; ++line) {
        count += crosses(*line, place) ? 1 : 0;
    }
    return count;
}

bool LabelPlaces::isFree(const QRectF& place) const
{
    return bounds_.contains(place)
        && std::ranges::none_of(taken_, [&](const QRectF& taken) { return taken.intersects(place); });
}

} // namespace loopside::paper
