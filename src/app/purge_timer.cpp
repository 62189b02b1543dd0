// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/purge_timer.h"

#include "app/wording.h"

#include <QStringList>

namespace loopside::app {

namespace {

const QString beganWord = QStringLiteral("from");
const QString ranWord = QStringLiteral("ran");

} // namespace

bool PurgeTimer::isRunning() const
{
    return kept_.text().startsWith(beganWord);
}

std::optional<std::int64_t> PurgeTimer::seconds() const
{
    constexpr std::uint64_t aSecond = 1'000'000'000U;
    constexpr std::int64_t aDay = 24 * 3600;
    const QStringList words = kept_.text().split(QLatin1Char(' '));
    if (words.size() == 2 && words[0] == ranWord) {
        return words[1].toLongLong();
    }
    const Stamp now = tablet_.now();
    if (words.size() != 3 || words[2] != toQt(toText(now.boot)) || now.monoNs < words[1].toULongLong()) {
        return std::nullopt;
    }
    const auto ran = static_cast<std::int64_t>((now.monoNs - words[1].toULongLong()) / aSecond);
    return ran <= aDay ? std::optional(ran) : std::nullopt;
}

void PurgeTimer::press()
{
    const auto ran = seconds();
    const Stamp now = tablet_.now();
    kept_.setText(isRunning() && ran ? ranWord + QStringLiteral(" %1").arg(*ran)
                                     : beganWord + QStringLiteral(" %1 ").arg(now.monoNs) + toQt(toText(now.boot)));
}

} // namespace loopside::app
