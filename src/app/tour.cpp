// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/tour.h"

#include "app/wording.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <QCoreApplication>

#include <algorithm>
#include <cstdio>

namespace loopside::app {

namespace {

constexpr std::int64_t startMs = 1'779'778'800'000; // an invented morning: 2026-05-26, 07:00 UTC

void print(const QString& line)
{
    std::printf("%s\n", qUtf8Printable(line));
    std::fflush(stdout);
}

bool complain(const QString& sentence)
{
    std::fprintf(stderr, "loopside: %s\n", qUtf8Printable(sentence));
    return false;
}

template<class List, class Name>
int rowNamed(const List& list, const std::string& wanted, Name nameOf)
{
    const auto found = std::find_if(list.begin(), list.end(), [&](const auto& item) { return nameOf(item) == wanted; });
    return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

} // namespace

Stamp TourClock::now()
{
    Stamp stamp;
    stamp.wallMs = startMs + now_.count();
    stamp.monoNs = static_cast<std::uint64_t>(std::chrono::nanoseconds(now_).count());
    stamp.boot.bytes[0] = 1;
    return stamp;
}

Tour::Tour(const Stage& stage, const story::Story& story) : stage_{stage}, story_{story} {}

bool Tour::play()
{
    if (!site() || !setUp()) {
        return false;
    }
    for (const story::StoryEntry& entry : story_.entries) {
        passTime(entry.seen);
        if (!enter(entry)) {
            return complain(toQt(entry.place) + QStringLiteral(": ") + stage_.tablet.trouble());
        }
    }
    if (!jobs() || !forecasts() || !findings() || !notes() || !shift() || !hands()) {
        return complain(stage_.tablet.trouble());
    }
    const QStringList warnings = Window::warnings();
    return isFine_ && (warnings.isEmpty() || complain(QStringLiteral("%1 warnings, see above").arg(warnings.size())));
}

void Tour::passTime(run::RunTime until)
{
    constexpr auto step = std::chrono::seconds(30);
    while (stage_.clock.time() + step < until) {
        stage_.clock.moveTo(stage_.clock.time() + step);
        stage_.tablet.tick();
        stage_.view.touched(); // somebody is at the cart all the time
    }
    stage_.clock.moveTo(until);
    stage_.tablet.tick();
    stage_.view.touched();
}

bool Tour::enter(const story::StoryEntry& entry)
{
    if (!entry.person.empty()) {
        const auto& people = stage_.tablet.site().people;
        stage_.view.choosePerson(rowNamed(people, entry.person, [](const auto& item) { return item.name; }));
    }
    print(toQt(entry.at) + QStringLiteral("  ") + stage_.view.run()->modeText());
    for (const story::Step& step : entry.steps) {
        const auto* said = std::get_if<run::Said>(&step);
        if (said != nullptr && !say(*said)) {
            return false;
        }
        if (std::holds_alternative<story::Closing>(step)) {
            isFine_ = picture(QStringLiteral("09-close-out-end")) && isFine_;
            lookThrough(*stage_.view.closeOut()->points());
            while (stage_.view.closeOut()->keys()->rowCount() > 0 && stage_.tablet.trouble().isEmpty()) {
                stage_.view.closeOut()->press(stage_.view.closeOut()->keys()->rows().first()[1].toString());
            }
            isFine_ = record() && isFine_;
        }
    }
    return true;
}

bool Tour::say(const run::Said& said)
{
    if (const auto* reading = std::get_if<run::ReadingLogged>(&said)) {
        return read(*reading);
    }
    if (const auto* changed = std::get_if<run::ModeChanged>(&said)) {
        return changeMode(changed->mode);
    }
    if (const auto* changed = std::get_if<run::ElementsChanged>(&said)) {
        return change(*changed);
    }
    if (std::holds_alternative<run::SampleDrawn>(said)) {
        stage_.view.openCloseOut();
        isFine_ = picture(QStringLiteral("08-close-out")) && kit() && isFine_;
        stage_.view.closeOut()->press(QStringLiteral("sample-after"));
        stage_.view.backToRun();
        isFine_ = picture(QStringLiteral("08-run-sample")) && isFine_;
        stage_.view.openCloseOut();
        return true;
    }
    return stage_.tablet.say(said);
}

bool Tour::changeMode(run::Mode mode)
{
    if (stage_.view.page() == AppView::Page::Changeover) {
        stage_.view.changeover()->press(toQt(run::nameOf(mode)));
        return true;
    }
    if (stage_.view.page() == AppView::Page::CloseOut) {
        stage_.view.closeOut()->press(QStringLiteral("stop"));
        return stage_.tablet.trouble().isEmpty();
    }
    stage_.view.run()->recordMode(toQt(run::nameOf(mode)));
    if (!stage_.view.run()->modeHint().isEmpty()) {
        isFine_ = picture(QStringLiteral("03-mode-hint")) && isFine_;
        stage_.view.run()->confirmMode();
    }
    if (mode == run::Mode::Bypassing) {
        isFine_ = picture(QStringLiteral("03-run-bypass")) && isFine_;
    }
    return stage_.tablet.trouble().isEmpty();
}

/// Types the set on the pad, key by key.
bool Tour::read(const run::ReadingLogged& reading)
{
    PadView* pad = stage_.view.pad();
    ChangeoverView* changeover = stage_.view.changeover();
    while (changeover->isOpen() && !changeover->wantsGauges()) {
        changeover->press(QStringLiteral("done")); // valves and vent: the story keeps them in a note
    }
    const auto type = [&](int field, const std::string& text) {
        pad->select(field);
        for (const char sign : text) {
            pad->key(QString(QLatin1Char(sign)));
        }
    };
    for (std::size_t i = 0; i < reading.gauges.size(); ++i) {
        type(static_cast<int>(i), reading.gauges[i]->low.toText());
        if (i == 1 && stage_.tablet.runTime(*stage_.tablet.shown()) > std::chrono::minutes(66)
            && stage_.tablet.runTime(*stage_.tablet.shown()) < std::chrono::minutes(72)) {
            isFine_ = picture(QStringLiteral("04-run-typing")) && isFine_;
            touch("toReadings");
            isFine_ = picture(QStringLiteral("04-run-readings")) && isFine_;
            touch("readingsBack");
            touch("trend");
            isFine_ = picture(QStringLiteral("04-run-trend")) && isFine_;
            touch("trendBack");
        }
    }
    type(static_cast<int>(reading.gauges.size()), reading.oil->number().toText());
    const bool wasChangeover = stage_.view.changeover()->wantsGauges();
    pad->goOn();
    if (!stage_.tablet.trouble().isEmpty()) {
        return false;
    }
    tell();
    if (stage_.view.alert()->isUp()) {
        isFine_ = picture(QStringLiteral("05-alert")) && isFine_;
        stage_.view.alert()->keepRunning();
        isFine_ = picture(QStringLiteral("05-alert-why")) && isFine_;
        stage_.view.alert()->back();
        stage_.view.alert()->changeNow();
        isFine_ = picture(QStringLiteral("06-changeover")) && isFine_;
    } else if (wasChangeover) {
        isFine_ = picture(QStringLiteral("06-changeover-elements")) && isFine_;
    }
    return true;
}

bool Tour::change(const run::ElementsChanged&)
{
    stage_.view.changeover()->press(QStringLiteral("all"));
    isFine_ = picture(QStringLiteral("06-changeover-look")) && isFine_;
    lookThrough(*stage_.view.changeover()->points());
    return stage_.tablet.trouble().isEmpty();
}

void Tour::tell()
{
    const auto& run = *stage_.tablet.shown();
    const auto& standing = stage_.tablet.standing(run);
    for (std::size_t i = 0; i < standing.stages.size(); ++i) {
        print(QStringLiteral("          ")
              + toQt(words::stageLine(stage_.tablet.words(), standing.stages[i], run.setup.stages[i],
                                      static_cast<int>(i) + 1)));
    }
    for (const run::Outlook& outlook : standing.outlooks) {
        print(QStringLiteral("          ")
              + toQt(words::outlookSentence(stage_.tablet.words(), outlook, run, standing)));
    }
    print(QStringLiteral("          ") + stage_.view.run()->turnoversText());
    print(QStringLiteral("          ") + stage_.view.run()->nextCaption() + QLatin1Char(' ')
          + stage_.view.run()->nextText());
    if (stage_.view.run()->lineLevel() != QStringLiteral("none")) {
        print(QStringLiteral("        ! ") + stage_.view.run()->lineText());
    }
}

bool Tour::picture(const QString& name)
{
    QCoreApplication::processEvents();
    return stage_.eye.look(name);
}

} // namespace loopside::app
