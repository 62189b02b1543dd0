// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/wording.h"

#include "words/outlook_told.h"

#include <QDateTime>

#include <algorithm>

namespace loopside::app {

namespace {

QString pair(std::int64_t first, std::int64_t second)
{
    return QStringLiteral("%1:%2").arg(first).arg(second, 2, 10, QLatin1Char('0'));
}

constexpr std::int64_t minuteMs = 60'000;

/// By the wall clock of the place where the stamp was made.
std::int64_t localMs(const Stamp& stamp)
{
    return stamp.wallMs + stamp.offsetMin * minuteMs;
}

std::int64_t localDay(const Stamp& stamp)
{
    constexpr std::int64_t dayMs = 24 * 60 * minuteMs; // stamps before 1970 there are none
    return localMs(stamp) / dayMs;
}

} // namespace

QString clockText(const Stamp& stamp)
{
    return toQt(words::clockText(stamp));
}

QString dateText(const Stamp& stamp)
{
    return QDateTime::fromMSecsSinceEpoch(localMs(stamp), Qt::UTC).date().toString(Qt::ISODate);
}

QString dayText(const Stamp& stamp)
{
    return dateText(stamp) + QLatin1Char(' ') + clockText(stamp);
}

bool isSameDay(const Stamp& a, const Stamp& b)
{
    return localDay(a) == localDay(b);
}

QString agoText(const Stamp& stamp, const Stamp& now)
{
    const std::int64_t days = localDay(now) - localDay(stamp);
    const QString before = QStringLiteral("\u00A0%1%2\u00A0d").arg(minusKey).arg(days);
    return clockText(stamp) + (days > 0 ? before : QString());
}

QString hoursText(run::RunTime time)
{
    const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(time).count();
    return pair(minutes / 60, minutes % 60);
}

QString minutesText(run::RunTime time)
{
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(std::max(time, run::RunTime{0})).count();
    return pair(seconds / 60, seconds % 60);
}

} // namespace loopside::app
