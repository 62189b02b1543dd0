// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QList>
#include <QString>

namespace loopside::paper {

/// The smallest step of 1, 2 or 5 times a power of ten that goes at most `most` times (1 or more) into `span` (above
/// 0); if only steps beyond the span would, the largest within it.
[[nodiscard]] double valueStep(double span, int most);

/// The smallest step of whole minutes by which people divide an hour or a day, and from two days on whole days, that
/// goes at most `most` times (1 or more) into `spanMinutes` (above 0).
[[nodiscard]] double timeStep(double spanMinutes, int most);

/// The multiples of `step` from `low` to `high`.
[[nodiscard]] QList<double> multiplesOf(double step, double low, double high);

/// `value` with as many digits behind the point as multiples of `step` need, in the default locale.
[[nodiscard]] QString valueText(double value, double step);

/// `minutes` as hours and minutes, "1:30"; hours may pass 24.
[[nodiscard]] QString hoursText(double minutes);

} // namespace loopside::paper
