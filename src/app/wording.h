// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "run/event.h"

#include <QString>

#include <string>

namespace loopside::app {

[[nodiscard]] inline QString toQt(const std::string& text)
{
    return QString::fromStdString(text);
}

[[nodiscard]] inline QString toQt(std::string_view text)
{
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// "14:18", as the wall clock of the device showed it.
[[nodiscard]] QString clockText(const Stamp& stamp);

/// "2026-05-26 14:18", as the wall clock of the device showed it.
[[nodiscard]] QString dayText(const Stamp& stamp);

/// "2026-05-26", of the place.
[[nodiscard]] QString dateText(const Stamp& stamp);

/// Whether both fall on one day of the place.
[[nodiscard]] bool isSameDay(const Stamp& a, const Stamp& b);

/// "14:18", or "14:18 −2 d" where that was two days before the day of `now`; a line never ends inside.
[[nodiscard]] QString agoText(const Stamp& stamp, const Stamp& now);

/// A key of the pad types it, U+2212; what is stored has the sign of a keyboard.
inline const QString minusKey = QStringLiteral("−");

/// "1:18" hours and minutes.
[[nodiscard]] QString hoursText(run::RunTime time);

/// "2:40" minutes and seconds; negative times count as nothing.
[[nodiscard]] QString minutesText(run::RunTime time);

} // namespace loopside::app
