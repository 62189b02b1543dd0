// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a trend shows is read back from its pixels; heights and places follow from proportion, not from the code.

#include "paper/trend.h"

#include "paper/picture.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <limits>

using namespace loopside::paper;
using namespace loopside::test;

namespace {

constexpr QSize screen(864, 160);

Trend trendOf(const QList<TrendStage>& stages)
{
    Trend trend;
    trend.stages = stages;
    trend.endMinute = 60.0;
    trend.unit = "psi";
    trend.rawText = "raw";
    trend.loadingText = "loading";
    trend.minuteText = "min";
    return trend;
}

/// A stage without a name, whose readings all say the same: nothing of its colour but curves and marks.
TrendStage steady(double raw, double loading, double limit)
{
    TrendStage stage;
    for (double minute = 5.0; minute <= 55.0; minute += 10.0) {
        stage.raw.append(QPointF(minute, raw));
        stage.loading.append(QPointF(minute, loading));
    }
    stage.limit = limit;
    return stage;
}

/// The two panels of a picture, by the lines at their feet.
struct Panels
{
    QRect upper;
    QRect lower;
};

Panels panelsOf(const QImage& picture)
{
    const TrendStyle style = distinctStyle();
    const QList<double> feet = longLines(picture, style.dim);
    REQUIRE(feet.size() == 2);
    const auto upperFoot = static_cast<int>(feet[0]);
    const auto lowerFoot = static_cast<int>(feet[1]);
    const int right = around(picture, style.dim, QRect(0, upperFoot, picture.width(), 1)).right();
    const int left =
        around(picture, style.dim, QRect(0, upperFoot - 3, picture.width() / 3, 1)).right(); // the upright axis
    return {QRect(QPoint(left, margin), QPoint(right, upperFoot)),
            QRect(QPoint(left, upperFoot + 1), QPoint(right, lowerFoot))};
}

/// How often the row `y` goes from `colour` to anything else.
int breaksIn(const QImage& picture, const QColor& colour, int y)
{
    int breaks = 0;
    for (int x = 1; x < picture.width(); ++x) {
        breaks += picture.pixel(x - 1, y) == colour.rgb() && picture.pixel(x, y) != colour.rgb() ? 1 : 0;
    }
    return breaks;
}

bool staysInside(const QImage& picture)
{
    const QRect area = picture.rect().adjusted(margin, margin, -margin, -margin);
    return around(picture, [&](int x, int y) { return !area.contains(x, y) && picture.pixel(x, y) != outside; })
        .isEmpty();
}

} // namespace

TEST_CASE("limits are heavy lines at their heights")
{
    const QImage picture = painted(trendOf({steady(4, 1, 20), steady(3, 1, 10)}), screen);
    const Panels panels = panelsOf(picture);
    const QList<double> limits = longLines(picture, distinctStyle().limit);
    REQUIRE(limits.size() == 2);
    const double zero = panels.upper.bottom();
    CHECK_THAT(zero - limits[0], Catch::WithinAbs(2.0 * (zero - limits[1]), 2.0)); // 20 is twice as high as 10
    CHECK(limits[0] > panels.upper.top());
    const int heavy = around(picture, distinctStyle().limit,
                             QRect(picture.width() / 2, 0, 1, static_cast<int>(limits[1]) - 5))
                          .height();
    CHECK(heavy > 3); // heavier than a curve
}

TEST_CASE("raw lies at its height in the upper panel and loading in the strip, whatever it is")
{
    const double loading = GENERATE(0.5, 1.0, 50.0);
    CAPTURE(loading);
    const QImage picture = painted(trendOf({steady(10, loading, 20)}), screen);
    const Panels panels = panelsOf(picture);
    const QColor colour = distinctStyle().stages[0];
    const double limit = longLines(picture, distinctStyle().limit).value(0);
    const QRect raw = around(picture, colour, panels.upper);
    CHECK_THAT((raw.top() + raw.bottom()) / 2.0, Catch::WithinAbs((limit + panels.upper.bottom()) / 2.0, 1.5));
    CHECK(raw.height() < 16); // a line and its marks, nothing of the loading
    CHECK(count(picture, colour, panels.lower) > panels.lower.width() / 2);
    CHECK(around(picture, colour, picture.rect()).bottom() <= panels.lower.bottom() + 6); // no lower than half a mark
}

TEST_CASE("the strip takes about 30 percent of the height")
{
    const QSize size = GENERATE(QSize(300, 120), QSize(864, 160), QSize(1500, 500));
    const Panels panels = panelsOf(painted(trendOf({steady(10, 1, 20)}), size));
    const double share = double(panels.lower.height()) / (panels.upper.height() + panels.lower.height());
    CHECK_THAT(share, Catch::WithinAbs(0.3, 0.06));
}

TEST_CASE("where there is room for one panel, raw has it alone")
{
    const TrendStyle style = distinctStyle();
    const QImage picture = painted(trendOf({steady(10, 3, 20)}), QSize(864, 80));
    const QList<double> feet = longLines(picture, style.dim);
    REQUIRE(feet.size() == 1);
    const double limit = longLines(picture, style.limit).value(0);
    const QRect curve = around(picture, style.stages[0], picture.rect());
    CHECK_THAT((curve.top() + curve.bottom()) / 2.0, Catch::WithinAbs((limit + feet[0]) / 2.0, 1.5));
    CHECK(curve.height() < 16); // no second curve
    CHECK(feet[0] - limit > 80 / 3.0);
    CHECK(staysInside(picture));
}

TEST_CASE("raw is broken and loading is not, however close the readings stand")
{
    const int readings = GENERATE(6, 200, 5000);
    CAPTURE(readings);
    TrendStage stage;
    for (int i = 0; i < readings; ++i) {
        const double minute = 5.0 + 50.0 * i / (readings - 1);
        stage.raw.append(QPointF(minute, 10));
        stage.loading.append(QPointF(minute, 1));
    }
    stage.limit = 20;
    const QImage picture = painted(trendOf({stage}), screen);
    const Panels panels = panelsOf(picture);
    const QColor colour = distinctStyle().stages[0];
    const QRect raw = around(picture, colour, panels.upper);
    const QRect loading = around(picture, colour, panels.lower);
    CHECK(breaksIn(picture, colour, raw.center().y()) > 20);
    CHECK(breaksIn(picture, colour, loading.center().y()) == 1);
    CHECK(raw.width() > 50.0 / 60.0 * panels.upper.width()); // from the first to the last reading
}

TEST_CASE("a reading lies at its minute on the time axis")
{
    TrendStage stage;
    stage.raw = {QPointF(30, 10)};
    const QImage picture = painted(trendOf({stage}), screen);
    const Panels panels = panelsOf(picture);
    const QRect mark = around(picture, distinctStyle().stages[0], panels.upper);
    REQUIRE_FALSE(mark.isEmpty());
    CHECK_THAT((mark.left() + mark.right()) / 2.0,
               Catch::WithinAbs((panels.upper.left() + panels.upper.right()) / 2.0, 1.5));
    CHECK(mark.width() < 16);
}

TEST_CASE("a changeover is an upright mark and no curve is drawn across it")
{
    TrendStage stage = steady(10, 1, 20);
    stage.changedAt = {32.0}; // between the readings at 25 and 35
    const QImage cut = painted(trendOf({stage}), screen);
    const QImage whole = painted(trendOf({steady(10, 1, 20)}), screen);
    const Panels panels = panelsOf(cut);
    const QColor colour = distinctStyle().stages[0];
    const int x = panels.upper.left() + static_cast<int>(panels.upper.width() * 32.0 / 60.0);
    const QRect upright = around(cut, colour, QRect(x - 3, margin, 7, screen.height()));
    CHECK(upright.top() <= panels.upper.top() + 10);
    CHECK(upright.bottom() >= panels.lower.bottom() - 2);
    const int left = panels.lower.left() + static_cast<int>(panels.lower.width() * 27.0 / 60.0);
    const QRect between(left, panels.lower.top() + 10, x - 8 - left, panels.lower.height() - 12);
    CHECK(count(whole, colour, between) >= between.width());
    CHECK(count(cut, colour, between) == 0);
}

TEST_CASE("a span is shaded in both panels from its start to its end")
{
    Trend trend = trendOf({steady(10, 1, 20)});
    trend.spans = {{15.0, 30.0, "bypass"}};
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const QColor shade = distinctStyle().shade;
    for (const QRect& panel : {panels.upper, panels.lower}) {
        const QRect shaded = around(picture, shade, panel);
        CHECK_THAT(shaded.left(), Catch::WithinAbs(panel.left() + panel.width() * 0.25, 2.5));
        CHECK_THAT(shaded.right(), Catch::WithinAbs(panel.left() + panel.width() * 0.5, 2.5));
        CHECK(shaded.height() > panel.height() * 0.8);
    }
    Trend wordless = trend;
    wordless.spans[0].text.clear();
    const QImage without = painted(wordless, screen);
    const QRect word = around(picture, [&](int x, int y) { return picture.pixel(x, y) != without.pixel(x, y); });
    CHECK_THAT(word.center().x(), Catch::WithinAbs(panels.upper.left() + panels.upper.width() * 0.375, 5.0));
}

TEST_CASE("spans of one word that follow each other are one span")
{
    Trend pieces = trendOf({steady(10, 1, 20)});
    pieces.spans = {{15.0, 18.0, "stopped"}, {18.0, 24.0, "stopped"}, {24.0, 30.0, "stopped"}, {40.0, 45.0, "stopped"}};
    Trend whole = pieces;
    whole.spans = {{15.0, 30.0, "stopped"}, {40.0, 45.0, "stopped"}};
    CHECK(painted(pieces, screen) == painted(whole, screen));
    whole.spans[0].to = 45.0;
    CHECK(painted(pieces, screen) != painted(whole, screen));
}

TEST_CASE("the way ahead is hatched between its edges, right of now and never above the limit")
{
    Trend trend = trendOf({steady(10, 1, 20), steady(2, 1, 0)});
    trend.endMinute = 120.0;
    const QImage without = painted(trend, screen);
    trend.stages[0].ahead = {{60.0, 10.0, 10.0, 10.0}, {90.0, 12.0, 16.0, 30.0}, {120.0, 14.0, 20.0, 40.0}};
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const QColor colour = distinctStyle().stages[0];
    const int now = panels.upper.left() + panels.upper.width() / 2;
    const QRect ahead = QRect(QPoint(now + 5, panels.upper.top()), panels.upper.bottomRight());
    const double limit = longLines(picture, distinctStyle().limit).value(0);
    const double zero = panels.upper.bottom();
    const auto heightOf = [&](double drop) { return zero - (zero - limit) * drop / 20.0; };

    const QRect band = around(
        picture, [&](int x, int y) { return ahead.contains(x, y) && picture.pixel(x, y) != without.pixel(x, y); });
    CHECK(band.right() >= panels.upper.right() - 2);
    CHECK(band.top() >= limit - 5.0); // half a limit line
    CHECK(band.bottom() <= heightOf(10.0) + 2.0);
    CHECK(count(picture, colour, band) > 100);
    CHECK(around(picture, [&](int x, int y) {
              return panels.lower.contains(x, y) && picture.pixel(x, y) != without.pixel(x, y);
          }).isEmpty());

    const QRect column(panels.upper.left() + panels.upper.width() * 7 / 8, panels.upper.top(), 3,
                       panels.upper.height());
    const QRect changed = around(
        picture, [&](int x, int y) { return column.contains(x, y) && picture.pixel(x, y) != without.pixel(x, y); });
    CHECK_THAT(changed.bottom(), Catch::WithinAbs(heightOf(13.0), 2.5)); // at 105 min, halfway from 12 to 14
}

TEST_CASE("a way ahead that cannot be drawn leaves the picture as it is")
{
    const double none = std::numeric_limits<double>::quiet_NaN();
    Trend trend = trendOf({steady(10, 1, 20)});
    const QImage without = painted(trend, screen);
    trend.stages[0].ahead = {{60.0, 10.0, 10.0, 10.0}};
    CHECK(painted(trend, screen) == without);
    trend.stages[0].ahead = {{60.0, none, 10.0, 10.0}, {none, 10.0, 10.0, 10.0}, {70.0, 10.0, none, 10.0}};
    CHECK(painted(trend, screen) == without);
}

TEST_CASE("a doubtful span is hatched, another is not")
{
    Trend trend = trendOf({steady(10, 1, 20)});
    trend.spans = {{15.0, 30.0, ""}};
    const QImage plain = painted(trend, screen);
    trend.spans[0].isDoubtful = true;
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const auto differs = [&](int x, int y) { return picture.pixel(x, y) != plain.pixel(x, y); };
    for (const QRect& panel : {panels.upper, panels.lower}) {
        const QRect hatched = around(picture, [&](int x, int y) { return panel.contains(x, y) && differs(x, y); });
        CHECK_THAT(hatched.left(), Catch::WithinAbs(panel.left() + panel.width() * 0.25, 4.0));
        CHECK_THAT(hatched.right(), Catch::WithinAbs(panel.left() + panel.width() * 0.5, 4.0));
    }
}

TEST_CASE("a sample is a bottle on the foot of the raw panel at its minute, with a letter")
{
    Trend trend = trendOf({steady(10, 1, 20)});
    const QImage without = painted(trend, screen);
    trend.samples = {{30.0, ""}};
    trend.sampleLetter = "S";
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const QRect bottle = around(picture, [&](int x, int y) { return picture.pixel(x, y) != without.pixel(x, y); });
    CHECK_THAT((bottle.left() + bottle.right()) / 2.0,
               Catch::WithinAbs((panels.upper.left() + panels.upper.right()) / 2.0, 1.5));
    CHECK_THAT(bottle.bottom(), Catch::WithinAbs(panels.upper.bottom(), 2.0));
    CHECK(bottle.height() > bottle.width()); // no mark of a reading is
    CHECK(bottle.width() < 30);
    const QRect inside = bottle.adjusted(4, bottle.height() / 4 + 4, -4, -4); // of its outline
    REQUIRE(inside.isValid());
    CHECK(count(picture, distinctStyle().ground, inside) < inside.width() * inside.height()); // the letter
    const QRect shoulder(bottle.topLeft(), QSize(2, 2));
    CHECK(count(picture, distinctStyle().ground, shoulder) == 4); // a neck is narrower than a body
}

TEST_CASE("samples at one time share a bottle, others stand apart")
{
    Trend together = trendOf({steady(10, 1, 20)});
    together.sampleLetter = "S";
    together.samples = {{30.0, ""}};
    const QImage one = painted(together, screen);
    together.samples = {{30.0, ""}, {30.2, ""}};
    CHECK(painted(together, screen) == one);
    together.samples = {{30.0, ""}, {36.0, ""}};
    CHECK(painted(together, screen) != one);
    together.samples = {{30.0, ""}, {std::numeric_limits<double>::quiet_NaN(), ""}, {-3.0, ""}, {400.0, ""}};
    CHECK(painted(together, screen) == one); // what has no place on the axis is left out
}

TEST_CASE("what was counted stands beside the bottle, what the letter means in the panel")
{
    Trend trend = trendOf({steady(10, 1, 20)});
    trend.sampleLetter = "S";
    trend.samples = {{30.0, ""}};
    const QImage plain = painted(trend, screen);
    const Panels panels = panelsOf(plain);
    const auto changed = [&](const QImage& picture) {
        return around(picture, [&](int x, int y) { return picture.pixel(x, y) != plain.pixel(x, y); });
    };
    trend.samples[0].code = "19/17/14";
    const QRect code = changed(painted(trend, screen));
    CHECK(code.left() > panels.upper.left() + panels.upper.width() / 2);
    CHECK(code.width() > 40);
    CHECK(code.bottom() <= panels.upper.bottom());
    CHECK(code.top() > panels.upper.center().y());
    trend.samples[0].code.clear();
    trend.sampleText = "S: sample drawn";
    const QRect words = changed(painted(trend, screen));
    CHECK(words.width() > 80);
    CHECK(panels.upper.contains(words));
    trend.samples.clear();
    const QImage none = painted(trend, screen);
    trend.sampleText.clear();
    CHECK(painted(trend, screen) == none); // no words for what is not there
}

TEST_CASE("the value of a limit stands right of the panel at its line")
{
    Trend trend = trendOf({steady(4, 1, 20)});
    trend.stages[0].limitText = "20 psi";
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const double limit = longLines(picture, distinctStyle().limit).value(0);
    const QRect beside(panels.upper.right() + 12, 0, picture.width() - panels.upper.right() - 12, picture.height());
    const QRect label = around(picture, [&](int x, int y) {
        const QColor pixel(picture.pixel(x, y));
        return beside.contains(x, y) && pixel.red() > 200 && pixel.green() < 128 && pixel.blue() < 128;
    });
    CHECK(label.width() > 20);
    CHECK_THAT((label.top() + label.bottom()) / 2.0, Catch::WithinAbs(limit, 4.0));
}

TEST_CASE("the values of two limits close together stand apart from each other")
{
    const QSize size = GENERATE(QSize(300, 120), QSize(864, 160), QSize(1500, 500));
    CAPTURE(size.width());
    Trend trend = trendOf({steady(4, 1, 25), steady(3, 1, 26)});
    trend.stages[0].limitText = "25 psi";
    trend.stages[1].limitText = "26 psi";
    const QImage both = painted(trend, size);
    QList<QRect> labels;
    for (qsizetype i = 0; i < 2; ++i) {
        Trend without = trend;
        without.stages[i].limitText = QString(6, QChar::Nbsp); // as long as can be, nothing to see
        TrendStyle style = distinctStyle();
        const QImage picture = painted(without, size, style);
        labels.append(around(both, [&](int x, int y) {
            return QColor(both.pixel(x, y)).green() < 128 && both.pixel(x, y) != picture.pixel(x, y);
        }));
        CHECK(labels.last().height() > 5);
        CHECK(labels.last().width() > 20);
    }
    CHECK_FALSE(labels[0].intersects(labels[1]));
}

TEST_CASE("stages of one colour are still told apart by their marks")
{
    TrendStyle style = distinctStyle();
    style.stages = {Qt::blue, Qt::blue, Qt::blue};
    QList<QImage> pictures;
    for (qsizetype place = 0; place < 3; ++place) {
        QList<TrendStage> stages(3);
        stages[place] = steady(10, 1, 0);
        pictures.append(painted(trendOf(stages), screen, style));
    }
    CHECK(pictures[0] != pictures[1]);
    CHECK(pictures[1] != pictures[2]);
    CHECK(pictures[0] != pictures[2]);
}

TEST_CASE("each curve has its name beside its last point, apart from the others")
{
    const QSize size = GENERATE(QSize(300, 120), QSize(700, 136), QSize(864, 160), QSize(1500, 500));
    CAPTURE(size.width());
    Trend trend = trendOf({steady(10, 1, 20), steady(10, 1, 20)}); // one curve over the other
    trend.stages[0].name = "Stage 1";
    trend.stages[1].name = "Stage 2";
    trend.endMinute = 55.0; // that of the last reading: the axis makes room for the names
    const QImage picture = painted(trend, size);
    const Panels panels = panelsOf(picture);
    const QRect point = around(picture, distinctStyle().stages[1], panels.upper.adjusted(0, 0, -60, 0));
    QList<QRect> names;
    for (const QColor& colour : {distinctStyle().stages[0], distinctStyle().stages[1]}) {
        const QRect rightOfThePoint = panels.upper.adjusted(panels.upper.width() - 50, 0, 0, 0);
        names.append(around(picture, colour, rightOfThePoint));
        CHECK(names.last().height() > 6);
        CHECK(names.last().width() > 20);
        CHECK(std::abs(names.last().center().y() - point.center().y()) < 40);
    }
    CHECK_FALSE(names[0].intersects(names[1]));
}

TEST_CASE("without readings and limits there are two empty frames and no words")
{
    const QSize size = GENERATE(QSize(300, 120), QSize(864, 160));
    const bool hasStages = GENERATE(false, true);
    Trend trend = trendOf(hasStages ? QList<TrendStage>(2) : QList<TrendStage>());
    const QImage picture = painted(trend, size);
    const Panels panels = panelsOf(picture);
    CHECK(count(picture, distinctStyle().ink, picture.rect()) == 0);
    CHECK(count(picture, distinctStyle().line, panels.upper) > panels.upper.width() / 2);
    CHECK(count(picture, distinctStyle().line, panels.lower) > panels.lower.width() / 2);
    trend.minuteText = "something else";
    CHECK(painted(trend, size) == picture);
    CHECK(count(painted(trendOf({steady(10, 1, 20)}), QSize(864, 160)), distinctStyle().ink, QRect(0, 0, 400, 100))
          > 0);
}

TEST_CASE("nothing is drawn outside the area, whatever the numbers and words")
{
    const QSize size = GENERATE(QSize(1, 1), QSize(40, 30), QSize(300, 120), QSize(864, 160), QSize(1500, 500));
    CAPTURE(size.width(), size.height());
    const double huge = 1e12;
    const double none = std::numeric_limits<double>::quiet_NaN();
    const double endless = std::numeric_limits<double>::infinity();
    TrendStage odd;
    odd.name = QString(200, 'W');
    odd.limit = 1e-9;
    odd.limitText = QString(100, 'W');
    odd.raw = {QPointF(-10, -5), QPointF(1, none), QPointF(2, endless), QPointF(3, huge), QPointF(500, -huge)};
    odd.loading = {QPointF(none, 1), QPointF(3, huge), QPointF(500, -3)};
    for (double minute = -400.0; minute < 900.0; minute += 2.0) {
        odd.changedAt.append(minute); // on and beyond both ends of the axis
    }
    Trend trend = trendOf({odd, odd, steady(0, 0, 0), steady(-1, 1, 0)});
    trend.spans = {{-100.0, 1e7, QString(300, 'W')}, {40.0, 20.0, "backwards"}};
    trend.endMinute = GENERATE(-3.0, 60.0);
    const QImage picture = painted(trend, size);
    CHECK(staysInside(picture));
    const QRect area(margin, margin, size.width(), size.height());
    CHECK(
        around(picture, [&](int x, int y) { return area.contains(x, y) && picture.pixel(x, y) == outside; }).isEmpty());
}

TEST_CASE("5000 readings of each of three stages paint in one call, from the first to the last")
{
    QList<TrendStage> stages(3);
    for (int i = 0; i < 5000; ++i) {
        for (int s = 0; s < 3; ++s) {
            const double minute = 60.0 * i / 4999.0;
            stages[s].raw.append(QPointF(minute, 5.0 * (s + 1) + (i % 2)));
            stages[s].loading.append(QPointF(minute, 1.0 + s + 0.1 * (i % 2)));
        }
    }
    const QImage picture = painted(trendOf(stages), QSize(1500, 500));
    const Panels panels = panelsOf(picture);
    for (const QColor& colour : distinctStyle().stages) {
        for (const QRect& panel : {panels.upper, panels.lower}) {
            const QRect curve = around(picture, colour, panel);
            CHECK(curve.left() <= panel.left() + 3);
            CHECK(curve.right() >= panel.right() - 12); // the last reading leaves room for the name
        }
    }
    CHECK(staysInside(picture));
}

TEST_CASE("the word of a doubtful span stands on ground of its own, and the hatch leaves most of the span free")
{
    Trend trend = trendOf({steady(4, 1, 20)});
    trend.spans = {{10.0, 50.0, ""}};
    trend.spans[0].isDoubtful = true;
    TrendStyle sun = distinctStyle(); // in the sun nothing has a tint, and hatch and words are as dark
    sun.shade = sun.ground;
    sun.strokePx = 3.0;
    const QImage without = painted(trend, screen, sun);
    trend.spans[0].text = "in doubt";
    const QImage picture = painted(trend, screen, sun);
    const QRect word = around(picture, [&](int x, int y) { return picture.pixel(x, y) != without.pixel(x, y); });
    const QRect letters = around(picture, sun.ink, word);
    REQUIRE_FALSE(letters.isEmpty());
    CHECK(word.left() <= letters.left() - 5); // there, too, lines of the hatch were taken away
    CHECK(word.right() >= letters.right() + 5);
    const Panels panels = panelsOf(without);
    const QRect within(panels.upper.left() + panels.upper.width() / 4, panels.upper.top() + panels.upper.height() / 2,
                       panels.upper.width() / 3, panels.upper.height() / 8);
    CHECK(count(without, sun.ground, within) > within.width() * within.height() * 3 / 4);
    CHECK(count(without, sun.ground, within) < within.width() * within.height());
}

TEST_CASE("the code of a bottle is not crossed by the line of a changeover beside it")
{
    Trend trend = trendOf({steady(18, 1, 20)});
    trend.samples = {{20.0, "19/17/14"}};
    trend.sampleLetter = "S";
    const auto lettersOf = [&](double changedAt) {
        trend.stages[0].changedAt = {changedAt};
        Trend wordless = trend;
        wordless.samples[0].code.clear();
        const QImage without = painted(wordless, screen);
        const QImage picture = painted(trend, screen);
        return around(picture, [&](int x, int y) { return picture.pixel(x, y) != without.pixel(x, y); });
    };
    const QRect right = lettersOf(50.0);
    REQUIRE_FALSE(right.isEmpty());
    const QRect left = lettersOf(23.0); // its line goes through where the code stood
    REQUIRE_FALSE(left.isEmpty());
    CHECK(left.right() < right.left());
}

TEST_CASE("the title of the trend is not crossed by the edges of a span")
{
    Trend trend = trendOf({steady(10, 1, 20)});
    trend.spans = {{1.0, 3.0, ""}}; // through where the title stands else
    Trend untitled = trend;
    untitled.rawText.clear();
    untitled.unit.clear();
    const QImage without = painted(untitled, screen);
    const QImage picture = painted(trend, screen);
    const Panels panels = panelsOf(picture);
    const QRect title = around(picture, [&](int x, int y) {
        return panels.upper.contains(x, y) && picture.pixel(x, y) != without.pixel(x, y)
            && picture.pixel(x, y) == distinctStyle().ink.rgb();
    });
    REQUIRE_FALSE(title.isEmpty());
    CHECK(title.left() > panels.upper.left() + panels.upper.width() / 20);
}
