// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/as_shown.h"

#include <catch2/catch.hpp>

using namespace loopside;

namespace {

QString shown(const char* utf8)
{
    return app::asShown(QString::fromUtf8(utf8));
}

} // namespace

TEST_CASE("no line ends between a number and its unit")
{
    CHECK(shown("ΔP is 40 kPa, limit 170 kPa.") == QStringLiteral("ΔP is 40\u00a0kPa, limit 170\u00a0kPa."));
    CHECK(shown("760 L (201 gal)") == QStringLiteral("760\u00a0L (201\u00a0gal)"));
    CHECK(shown("1.70 bar") == QStringLiteral("1.70\u00a0bar"));
    CHECK(shown("24 °C · 12.5 µm · 100 %") == QStringLiteral("24\u00a0°C · 12.5\u00a0µm · 100\u00a0%"));
    CHECK(shown("± 4 kPa") == QStringLiteral("±\u00a04\u00a0kPa"));
    CHECK(shown("40–45 kPa") == QStringLiteral("40–\u206045\u00a0kPa"));
    CHECK(shown("read at 9 min 30 s.") == QStringLiteral("read at 9\u00a0min 30\u00a0s."));
}

TEST_CASE("no line ends at the slash of a unit")
{
    CHECK(shown("at 24 L/min") == QStringLiteral("at 24\u00a0L\u2060/\u2060min"));
    CHECK(shown("870 kg/m³") == QStringLiteral("870\u00a0kg\u2060/\u2060m³"));
    CHECK(shown("90\u00a0L/min") == QStringLiteral("90\u00a0L\u2060/\u2060min")); // of a catalogue
}

TEST_CASE("a minus before a quantity is one")
{
    CHECK(shown("oil at -5 °C") == QStringLiteral("oil at \u22125\u00a0°C"));
    CHECK(shown("(-0.2 bar)") == QStringLiteral("(\u22120.2\u00a0bar)"));
    CHECK(app::numberAsShown(Decimal(-25, 1)) == QStringLiteral("\u22122.5"));
    CHECK(app::numberAsShown(Decimal(25, 1)) == QStringLiteral("2.5"));
}

TEST_CASE("what is no quantity stays as it is")
{
    const auto same = GENERATE("", "2026-05-26 14:18", "Cart P-12 leaks", "19/17/14", "ISO VG 46 hydraulic", "TK-2 L4",
                               "3 lines, 2 minutes", "Cart B, 2 elements", "WO-4711 -5", "5 of 10");
    CHECK(shown(same) == QString::fromUtf8(same));
}
