// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What was typed into the fields of a page survives a dead battery: offered again, never logged by itself.

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

void type(app::FieldsView& fields, int field, const char* digits)
{
    fields.select(field);
    for (const char digit : std::string(digits)) {
        fields.key(QString(QLatin1Char(digit)));
    }
}

QString ghostOf(app::FieldsView& fields, int field)
{
    return fields.rows()->rows().at(field).at(1).toString();
}

const QString typedBefore = QStringLiteral("typed before, not logged");

/// Where a page has its fields.
struct Page
{
    const char* name;
    app::FieldsView* (*fields)(AppBench& bench);
    const char* kind; ///< Of the entry that must not be there.
};

} // namespace

TEST_CASE("fields of set-up, flush and transfer survive a kill, say so, and log nothing")
{
    const auto page = GENERATE(
        Page{"set up: oil", [](AppBench& b) { return b.app()->setup()->oil(); }, "run-opened"},
        Page{"set up: code", [](AppBench& b) { return b.app()->setup()->code(); }, "run-opened"},
        Page{"flush", [](AppBench& b) { return b.app()->flush()->fields(); }, "flush-opened"},
        Page{"transfer", [](AppBench& b) { return b.app()->transfer()->fields(); }, "transfer-opened"},
        Page{"transfer: moved", [](AppBench& b) { return b.app()->transfer()->moved(); }, "transfer-stopped"});
    INFO(page.name);
    AppBench bench;
    CHECK(ghostOf(*page.fields(bench), 0) != typedBefore);
    type(*page.fields(bench), 0, "18");
    bench.restart();
    CHECK(page.fields(bench)->text(0) == QStringLiteral("18"));
    CHECK(ghostOf(*page.fields(bench), 0) == typedBefore);
    CHECK(bench.entries(QString::fromLatin1(page.kind)) == 0);
    page.fields(bench)->select(0);
    page.fields(bench)->backspace();
    CHECK(ghostOf(*page.fields(bench), 0) != typedBefore); // it is being typed now
    page.fields(bench)->clear();
    bench.restart();
    CHECK(page.fields(bench)->areEmpty());
}

TEST_CASE("the plate at the tank is read anew each time")
{
    AppBench bench;
    bench.app()->transfer()->plate()->key(QStringLiteral("B"));
    bench.restart();
    CHECK(bench.app()->transfer()->plate()->areEmpty());
}

} // namespace loopside::test
