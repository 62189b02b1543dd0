// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QLineF>
#include <QList>
#include <QRectF>

#include <limits>
#include <optional>

namespace loopside::paper {

/// Finds places for labels within a panel: never one over another, and over as few lines as can be.
class LabelPlaces
{
public:
    /// Labels side by side stand `apart` pixels from each other.
    LabelPlaces(const QRectF& bounds, double apart) : bounds_{bounds}, apart_{apart} {}

    /// Lines that labels should leave free.
    void avoid(const QList<QLineF>& lines) { lines_.append(lines); }

    /// Takes, of the candidates within the bounds and over no label, the first among those that lie over the fewest
    /// lines, and over no more than `most`. Nothing if there is none: the label is then left out.
    [[nodiscard]] std::optional<QRectF> take(const QList<QRectF>& candidates,
                                             int most = std::numeric_limits<int>::max());

    /// How many of the lines to avoid cross `place`; beyond `most` they are not counted further.
    [[nodiscard]] int linesOver(const QRectF& place, int most = std::numeric_limits<int>::max()) const;

private:
    [[nodiscard]] bool isFree(const QRectF& place) const;

    QRectF bounds_;
    double apart_;
    QList<QLineF> lines_;
    QList<QRectF> taken_;
};

} // namespace loopside::paper
