// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/guide_view.h"

#include "app_bench.h"

#include <QRegularExpression>

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

std::string line(const app::GuideLine& told)
{
    return (told.kind + QLatin1Char('|') + told.mark + QLatin1Char('|') + told.text + QLatin1Char('|') + told.plain)
        .toStdString();
}

/// All words of a guide, without signs and the marks of Markdown.
QStringList wordsOf(QString text)
{
    return text
        .replace(QRegularExpression(QStringLiteral("[^\\w]+"), QRegularExpression::UseUnicodePropertiesOption),
                 QStringLiteral(" "))
        .split(QLatin1Char(' '), Qt::SkipEmptyParts);
}

} // namespace

TEST_CASE("a guide in Markdown becomes lines: text, items, code, and a table below each other")
{
    AppBench bench;
    const auto parts = app::guideParts("<!-- for who edits -->\n\n# All\n\nBefore *a key* & **more**.\n\n## Steps\n\n"
                                       "1. One\n2. Two\n\n- loose\n\nThen:\n\n    do this\n\n## Table\n\n"
                                       "| it says | do | sure |\n|---|---|---|\n| A | B *k* | C |\n\n"
                                       "| word | meaning |\n|---|---|\n| x < y | z |\n");
    REQUIRE(parts.size() == 3);
    CHECK(parts[0].title == text("All"));
    REQUIRE(parts[0].lines.size() == 1);
    CHECK(line(parts[0].lines[0]) == "text||Before <b><i>a key</i></b> &amp; <b>more</b>.|Before a key & more.");
    REQUIRE(parts[1].lines.size() == 5);
    CHECK(line(parts[1].lines[0]) == "item|1.|One|One");
    CHECK(line(parts[1].lines[1]) == "item|2.|Two|Two");
    CHECK(line(parts[1].lines[2]) == "item|•|loose|loose");
    CHECK(line(parts[1].lines[3]) == "text||Then:|Then:");
    CHECK(line(parts[1].lines[4]) == "code||do this|do this");
    REQUIRE(parts[2].lines.size() == 5);
    CHECK(line(parts[2].lines[0]) == "head||A|A");
    CHECK(line(parts[2].lines[1]) == "cell|do|B <b><i>k</i></b>|B k");
    CHECK(line(parts[2].lines[2]) == "cell|sure|C|C");
    CHECK(line(parts[2].lines[3]) == "head||x &lt; y|x < y");
    CHECK(line(parts[2].lines[4]) == "cell||z|z");
}

TEST_CASE("no word of the guide is lost on the screen, in any language")
{
    AppBench bench;
    for (const char* language : {"en", "de", "es"}) {
        CAPTURE(language);
        const QString source = app::withoutComments(app::guideIn(language));
        QString shown;
        for (const app::GuidePart& part : app::guideParts(app::guideIn(language))) {
            shown += part.title + QLatin1Char('\n');
            for (const app::GuideLine& told : part.lines) {
                shown += told.plain + QLatin1Char('\n');
            }
        }
        QStringList missing = wordsOf(source);
        CHECK(missing.size() > 2000);
        for (const QString& word : wordsOf(shown)) {
            missing.removeOne(word);
        }
        // What is not shown: the numbers of lists, the heads of tables of two columns, and of larger ones once.
        CAPTURE(missing.join(QLatin1Char(' ')).toStdString());
        CHECK(missing.size() < 45);
    }
}

TEST_CASE("the guide is shown in the language of who holds the tablet, from where somebody was and back there")
{
    AppBench bench;
    app::GuideView& guide = *bench.app()->guide();
    bench.app()->showSettings();
    bench.app()->showGuide();
    CHECK(bench.app()->page() == app::AppView::Page::Guide);
    CHECK(guide.title().isEmpty());
    CHECK(guide.parts()->rowCount() == 11);
    CHECK(guide.parts()->rows()[2][0] == text("A reading"));
    CHECK(guide.lines()->rowCount() == 0);

    guide.openPart(2);
    CHECK(guide.title() == text("A reading"));
    CHECK(guide.lines()->rowCount() == 7);
    CHECK(guide.hasNext());
    guide.openNext();
    CHECK(guide.title() == text("An alert"));
    guide.openPart(10);
    CHECK_FALSE(guide.hasNext());
    guide.openNext();
    CHECK(guide.title() == text("Words"));

    bench.app()->showGuide(); // from itself: the list, and the way back stays
    CHECK(guide.title().isEmpty());
    bench.app()->leaveGuide();
    CHECK(bench.app()->page() == app::AppView::Page::Settings);
}

TEST_CASE("what the forecast means is one touch away, under the title that the guide has for it")
{
    AppBench bench;
    bench.app()->showStock();
    bench.app()->showGuideOfForecast();
    CHECK(bench.app()->guide()->title() == text("What the forecast means"));
    CHECK(bench.app()->guide()->forecastTitle() == text("What the forecast means"));
    bench.app()->leaveGuide();
    CHECK(bench.app()->page() == app::AppView::Page::Stock);
}

TEST_CASE("in each language the part about the forecast stands at the same place")
{
    AppBench bench;
    for (const auto& [language, title] : {std::pair{"en", "What the forecast means"},
                                          {"de", "Was die Vorhersage bedeutet"},
                                          {"es", "Qué significa el pronóstico"}}) {
        const auto parts = app::guideParts(app::guideIn(language));
        REQUIRE(parts.size() == 11);
        CHECK(parts[8].title == text(title));
    }
}

TEST_CASE("the titles of the guide are known without reading it whole, in any language")
{
    AppBench bench;
    for (const char* language : {"en", "de", "es"}) {
        QStringList titles;
        for (const app::GuidePart& part : app::guideParts(app::guideIn(language))) {
            titles.append(part.title);
        }
        CHECK(app::guideTitles(app::guideIn(language)) == titles);
    }
}
