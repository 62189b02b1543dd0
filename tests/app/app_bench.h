// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "bench.h"

#include <QCoreApplication>

namespace loopside::test {

/// A bench, and the program that its timers want.
struct AppBench : Bench
{
    AppBench() : Bench{(theProgram(), nullptr)} { begin(); }

private:
    static void theProgram()
    {
        static int words = 1;
        static char name[] = "test_app";
        static char* arguments[] = {name, nullptr};
        // Never taken down: at the end of the program parts of Qt that it needs for that are gone before it.
        [[maybe_unused]] static const auto* const program = new QCoreApplication(words, arguments);
    }
};

[[nodiscard]] inline QString text(const char* utf8)
{
    return QString::fromUtf8(utf8);
}

/// Key by key into a field of a page of the catalogue.
inline void type(app::RecordView& record, int field, std::string_view signs)
{
    record.fields()->select(field);
    for (const char sign : signs) {
        record.fields()->key(QString(QLatin1Char(sign)));
    }
}

/// Looks at each point in turn and answers that it is done.
inline void answerAll(Bench& bench, app::ChecklistView& points)
{
    for (int asked = 0; asked < points.points()->rowCount() && !points.isComplete(); ++asked) {
        points.answer(QStringLiteral("done"));
        bench.pass(2);
    }
}

/// The set of a person at the cart: pressures as typed, in the gauges' unit.
inline run::Said setOf(std::initializer_list<int> gauges, const char* oil)
{
    run::ReadingLogged set;
    for (const int gauge : gauges) {
        set.gauges.emplace_back(run::GaugeTyped{Decimal(gauge, 0), std::nullopt});
    }
    set.oil = run::TypedTemperature::parse(oil).value();
    return set;
}

} // namespace loopside::test
