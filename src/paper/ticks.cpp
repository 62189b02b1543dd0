// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "paper/ticks.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace loopside::paper {

namespace {

/// Steps and ranges are computed; a billionth decides whether a multiple lies on the end of an axis.
constexpr double slack = 1e-9;

bool goesInto(double step, double span, int most)
{
    return span / step <= most + slack;
}

} // namespace

double valueStep(double span, int most)
{
    double power = std::pow(10.0, std::floor(std::log10(span / most)));
    double step = power;
    while (true) {
        for (const double factor : {1.0, 2.0, 5.0}) {
            if (factor * power > span * (1.0 + slack)) {
                return step;
            }
            step = factor * power;
            if (goesInto(step, span, most)) {
                return step;
            }
        }
        power *= 10.0;
    }
}

double timeStep(double spanMinutes, int most)
{
    constexpr double day = 1440.0;
    for (const double step : {1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 180.0, 240.0, 360.0, 720.0}) {
        if (goesInto(step, spanMinutes, most)) {
            return step;
        }
    }
    return day * std::max(1.0, std::ceil(spanMinutes / day / most - slack));
}

QList<double> multiplesOf(double step, double low, double high)
{
    QList<double> multiples;
    const auto last = static_cast<qint64>(std::floor(high / step + slack));
    for (auto n = static_cast<qint64>(std::ceil(low / step - slack)); n <= last; ++n) {
        multiples.append(static_cast<double>(n) * step);
    }
    return multiples;
}

QString valueText(double value, double step)
{
    const int digits = std::max(0, static_cast<int>(-std::floor(std::log10(step) + slack)));
    QLocale locale = QLocale::c(); // the decimal point of all other numbers, whatever the device is set to
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return locale.toString(value, 'f', digits);
}

QString hoursText(double minutes)
{
    const auto whole = std::llround(minutes);
    return QStringLiteral("%1:%2").arg(whole / 60).arg(whole % 60, 2, 10, QLatin1Char('0'));
}

} // namespace loopside::paper
