// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"
#include "base/text.h"

#include <QRegularExpression>

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace loopside;
using app::AppView;
using app::ExerciseView;
using app::PracticeView;

namespace {

/// A bench with an exercise begun, its clock standing still.
struct Practising : test::AppBench
{
    explicit Practising(int number)
    {
        practice().choose(number - 1);
        practice().start();
        REQUIRE(practice().exercise() != nullptr);
        exercise().chooseRate(0);
    }

    ~Practising() override { QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete); }
    Practising(const Practising&) = delete;
    Practising& operator=(const Practising&) = delete;

    [[nodiscard]] PracticeView& practice() const { return *app()->practice(); }
    [[nodiscard]] ExerciseView& exercise() const { return *practice().exercise(); }
    [[nodiscard]] app::PadView& pad() const { return *exercise().app()->pad(); }

    void mode(const char* name) const
    {
        exercise().app()->run()->recordMode(QString::fromLatin1(name));
        exercise().app()->run()->confirmMode();
    }

    /// Reads the dials as a person does, to the nearest division, and types them.
    void read() const
    {
        const auto type = [&](int field, const std::string& text) {
            pad().select(field);
            for (const char sign : text) {
                pad().key(QString(QLatin1Char(sign)));
            }
        };
        for (int i = 0; i < 3; ++i) {
            const auto& row = exercise().dials()->rows()[i];
            const double division = row[3].toDouble();
            type(i, fixed(std::round(row[5].toDouble() / division) * division, division < 1.0 ? 1 : 0));
        }
        type(3, exercise().oilText().split(QLatin1Char(' ')).first().toStdString());
        pad().goOn();
        REQUIRE(exercise().tablet().trouble().isEmpty());
    }
};

bool has(const app::RowModel* rows, const char* text)
{
    for (const auto& row : rows->rows()) {
        for (const QVariant& value : row) {
            if (value.toString().contains(QString::fromUtf8(text))) {
                return true;
            }
        }
    }
    return false;
}

} // namespace

TEST_CASE("there are twelve exercises to choose from, each with a task of its own")
{
    const test::AppBench bench;
    PracticeView& practice = *bench.app()->practice();
    REQUIRE(practice.exercises()->rowCount() == 12);
    std::set<QString> tasks;
    for (int row = 0; row < 12; ++row) {
        practice.choose(row);
        tasks.insert(practice.task());
        CHECK(practice.task().startsWith(QLatin1Char('[')) == false);
        CHECK(practice.exercises()->rows()[row][2].toBool());
    }
    CHECK(tasks.size() == 12);
}

TEST_CASE("an exercise leaves the real journal as it is, to the byte")
{
    Practising bench(8);
    const QString before = bench.hashes();
    const int entries = bench.tablet().entriesHere();
    bench.mode("filtering");
    bench.exercise().pass(120.0);
    bench.read();
    bench.exercise().askThink();
    bench.exercise().choose(1);
    CHECK(bench.exercise().tablet().entriesHere() > 3);
    bench.exercise().end();
    bench.practice().leave();
    CHECK(bench.hashes() == before);
    CHECK(bench.tablet().entriesHere() == entries);
    CHECK(bench.tablet().state().runs.empty());
}

TEST_CASE("every entry of an exercise is by another device and person, and its run is marked as practice")
{
    Practising bench(1);
    bench.mode("filtering");
    const auto& state = bench.exercise().tablet().state();
    REQUIRE(state.runs.size() == 1);
    const run::RunState& run = state.runs.begin()->second;
    CHECK(run.setup.isPractice);
    Id real;
    real.bytes[0] = 9; // the bench's device
    CHECK(run.opened.device != real);
    REQUIRE(!run.facts.empty());
    for (const auto& fact : run.facts) {
        CHECK(fact.header.device == run.opened.device);
        for (const auto& person : bench.tablet().site().people) {
            CHECK(fact.header.person != person.id);
        }
    }
}

TEST_CASE("the mode keys and the pad act on the simulated cart")
{
    Practising bench(1);
    CHECK(bench.exercise().dials()->rows()[0][5].toDouble() < bench.exercise().dials()->rows()[0][2].toDouble() * 0.05);
    bench.mode("filtering");
    CHECK(bench.exercise().exercise().lived().firstFiltering.has_value());
    CHECK(bench.exercise().dials()->rows()[0][5].toDouble() > bench.exercise().dials()->rows()[0][2].toDouble() * 0.05);
    bench.exercise().pass(120.0);
    bench.read();
    CHECK(bench.exercise().exercise().lived().acts.size() == 2);
}

TEST_CASE("nothing is typed for who practises")
{
    Practising bench(1);
    bench.mode("filtering");
    bench.exercise().pass(120.0);
    for (const auto& row : bench.pad().fields()->rows()) {
        for (int column = 0; column < row.size(); ++column) {
            CHECK_FALSE(row[column].toString().contains(QRegularExpression(QStringLiteral("^[0-9.]+$"))));
        }
    }
}

TEST_CASE("the practice clock stands, and goes on to the next reading, and the tablet's does not move")
{
    Practising bench(1);
    const Stamp real = bench.tablet().now();
    bench.mode("filtering");
    const auto before = bench.exercise().exercise().now();
    bench.exercise().toNextReading();
    CHECK_THAT((bench.exercise().exercise().now() - before).in(units::second), Catch::WithinAbs(120.0, 11.0));
    CHECK(bench.exercise().app()->run()->isOverdue() == false);
    CHECK(bench.tablet().now() == real);
    bench.exercise().pass(600.0); // held up by the alert that the reading is overdue, and by nothing after that
    const auto told = bench.exercise().exercise().now();
    CHECK((told - before).in(units::second) < 600.0);
    CHECK(bench.exercise().app()->run()->isOverdue());
    bench.exercise().pass(600.0);
    CHECK((bench.exercise().exercise().now() - told).in(units::second) == 600.0);
}

TEST_CASE("nobody practises while a real cart pumps, and a real alert takes the screens back")
{
    test::AppBench bench;
    PracticeView& practice = *bench.app()->practice();
    bench.playScene(QStringLiteral("aerated"));
    CHECK_FALSE(practice.canStart());
    CHECK_FALSE(practice.problem().isEmpty());
    practice.start();
    CHECK(practice.exercise() == nullptr);
}

TEST_CASE("what a run that is over told keeps nobody from practice, but for what was to stop its pump")
{
    test::AppBench bench;
    PracticeView& practice = *bench.app()->practice();
    bench.playScene(QStringLiteral("aerated"));
    const Id run = bench.tablet().shown()->id;
    bench.pass(3600); // the reading is overdue, and nobody acknowledges it
    REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    CHECK(practice.canStart());

    bench.playScene(QStringLiteral("dead-headed"));
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    CHECK_FALSE(practice.canStart()); // whether that pump stands nobody has said
}

TEST_CASE("a real run that begins to pump ends the exercise")
{
    Practising bench(1);
    bench.playScene(QStringLiteral("aerated"));
    CHECK(bench.practice().exercise() == nullptr);
    CHECK(bench.practice().problem().isEmpty() == false);
}

TEST_CASE("who looks at the hose is told what is there, and who ends looks back")
{
    Practising bench(8);
    bench.mode("filtering");
    bench.exercise().askLook();
    CHECK(bench.exercise().asks() == QStringLiteral("look"));
    bench.exercise().choose(0);
    CHECK(bench.exercise().sight().contains(QStringLiteral("return hose")));
    bench.exercise().askThink();
    bench.exercise().choose(static_cast<int>(practice::Thought::GaugeStuck));
    CHECK(bench.exercise().asks() == QStringLiteral("place"));
    CHECK(bench.exercise().choices()->rowCount() == 3);
    bench.exercise().choose(1);
    CHECK(bench.exercise().asks() == QStringLiteral("none"));
    bench.exercise().end();
    REQUIRE(bench.exercise().isOver());
    CHECK(has(bench.exercise().did(), "Gauge 2 is stuck"));
    CHECK(has(bench.exercise().did(), "Return hose"));
    CHECK(bench.exercise().goals()->rowCount() == 4);
    CHECK(bench.exercise().scoreText().contains(QStringLiteral("of 4")));
    bench.practice().leave();
    CHECK(has(bench.practice().exercises(), "of 4 reached"));
}

TEST_CASE("elements told as changed while the pump runs are not changed, and that is said")
{
    Practising bench(3);
    bench.mode("filtering");
    bench.exercise().change(1);
    CHECK(bench.exercise().app()->page() == AppView::Page::Changeover);
    CHECK_FALSE(bench.exercise().isAtCart());
    auto& tablet = const_cast<app::Tablet&>(bench.exercise().tablet());
    tablet.say(run::Said(run::ElementsChanged{1, 2, {}}));
    CHECK(tablet.trouble().contains(QStringLiteral("not changed")));
}

TEST_CASE("what is noted in an exercise stands in its own journal and folder, and goes when it is begun again")
{
    Practising bench(1);
    const QString before = bench.hashes();
    const auto draw = [&] {
        app::NotesView& notes = *bench.exercise().app()->notes();
        notes.open({});
        notes.write(QStringLiteral("the needle of G2 sticks"));
        notes.go(app::NotesView::Mode::Draw);
        notes.beginStroke(0.5, 0.5);
        notes.keepPicture({});
    };
    draw();
    app::NotesView& notes = *bench.exercise().app()->notes();
    CHECK(notes.rows()->rowCount() == 2);
    notes.show(0);
    CHECK(notes.shownHasPicture());
    CHECK(bench.hashes() == before);
    CHECK(bench.attachmentFiles() == 0);
    notes.close();
    bench.practice().leave();
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    bench.practice().start();
    REQUIRE(bench.practice().exercise() != nullptr);
    bench.exercise().app()->notes()->open({});
    CHECK(bench.exercise().app()->notes()->rows()->rowCount() == 0);
}

TEST_CASE("every sentence of every exercise is there in every language")
{
    for (const auto language : words::languages()) {
        const auto words = words::Words::in(language).value();
        for (const auto& about : practice::exerciseList()) {
            for (std::uint64_t seed = 1; seed <= 6; ++seed) {
                const auto plan = practice::drawExercise(about.number, seed);
                CHECK(words.has(plan.hidden.id));
                CHECK(words.say(plan.hidden).find('{') == std::string::npos);
                CHECK(words.has(plan.next.id));
                for (const auto goal : plan.goals) {
                    CHECK(words.has("practice.goal." + std::string(practice::nameOf(goal))));
                }
            }
            CHECK(words.has("practice." + std::string(about.id) + ".title"));
            CHECK(words.has("practice." + std::string(about.id) + ".task"));
        }
        for (const auto& nature : practice::thoughts()) {
            CHECK(words.has("practice.think." + std::string(nature.name)));
            CHECK(words.has("practice.thought." + std::string(nature.name)));
        }
        for (const auto spot : practice::spotNames()) {
            CHECK(words.has("practice.spot." + std::string(spot)));
        }
    }
}
