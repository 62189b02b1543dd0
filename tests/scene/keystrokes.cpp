// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "keystrokes.h"

#include <algorithm>
#include <cmath>

namespace loopside::scene {

namespace {

constexpr double homeS = 0.40;
constexpr double keyS = 0.28;
constexpr double thinkS = 1.35;
constexpr double pointLeastS = 0.8;

bool isRepeated(const std::vector<Touch>& touches, std::size_t index)
{
    return index > 0 && touches[index - 1].name == touches[index].name;
}

double pointS(const Touch& touch)
{
    return std::max(pointLeastS, 0.8 + 0.1 * std::log2(touch.distanceMm / touch.sizeMm + 0.5));
}

/// Answers each point of a checklist, two seconds after each other: it is looked at.
void lookAtAll(Hand& hand, const QString& name, int points)
{
    for (int i = 0; i < points; ++i) {
        hand.bench().pass(2);
        hand.tap(name + QString::number(i));
    }
}

/// Through the steps of a set-up that needs no more: gear oil with Cart C (gauges in psi), hydraulic oil with Cart B
/// (kPa).
void setUp(Hand& hand, bool isPsi)
{
    hand.tap({"setUp", isPsi ? "tank1" : "tank0", "nextStep", isPsi ? "cart1" : "cart0", "nextStep", "step3"});
    hand.type(isPsi ? QStringLiteral("55") : QStringLiteral("24"));
    hand.tap({"step4", "placement0"});
    lookAtAll(hand, QStringLiteral("hosePoint"), 3);
    hand.tap({"nextStep", "target0", "step7"});
    lookAtAll(hand, QStringLiteral("areaPoint"), 9);
    while (hand.isThere(QStringLiteral("nextStep"))) {
        hand.tap(QStringLiteral("nextStep"));
    }
    hand.tap({"startRun"});
}

/// A run that filters, with one logged set.
void openRun(Hand& hand, bool isPsi)
{
    setUp(hand, isPsi);
    hand.tap({"modeFiltering", "hintConfirm"});
    hand.bench().pass(120);
    isPsi ? hand.logSet({"38", "24", "18", "55"}) : hand.logSet({"145", "110", "40", "24"});
    hand.bench().pass(300);
}

void reachLimit(Hand& hand)
{
    openRun(hand, true);
    hand.logSet({"82", "24", "18", "55"});
}

void nothing(Hand&) {}

void planWaste(Hand& hand)
{
    hand.tap({"toTransfer", "wasteTank1", "wasteCart0", "wasteField0"});
    hand.type(QStringLiteral("205"));
    hand.tap(QStringLiteral("wasteField1"));
    hand.type(QStringLiteral("60"));
    hand.tap(QStringLiteral("wasteField2"));
    hand.type(QStringLiteral("160"));
    hand.tap(QStringLiteral("jobMain"));
}

void confirmWaste(Hand& hand)
{
    hand.type(QStringLiteral("221"));
    hand.tap({"valve0"});
    lookAtAll(hand, QStringLiteral("wastePoint"), 4);
    hand.tap({"jobMain"});
}

void openFlush(Hand& hand)
{
    hand.tap({"toFlush", "flushCart0", "flushFluid1", "flushField0"});
    hand.type(QStringLiteral("1.5"));
    hand.tap(QStringLiteral("flushField1"));
    hand.type(QStringLiteral("10"));
    hand.tap({"flushWanted0", "flushApprover2", "jobMain"});
}

/// Words come from a keyboard: its letters are not counted.
void beginNote(Hand& hand)
{
    openRun(hand, true);
    app::NotesView& notes = *hand.bench().app()->notes();
    notes.open({});
    notes.setDraft(QStringLiteral("Needle of G2 sticks until it is tapped."));
    notes.close();
}

void putFile(Hand& hand)
{
    hand.bench().writeFile(QStringLiteral("tanks.csv"), QStringLiteral("name,volume_l\nAlcove pump,60\n"));
}

void planJob(Hand& hand)
{
    hand.tap({"toTanks", "tabJobs", "recordNew"});
    hand.bench().app()->jobs()->typeName(QStringLiteral("WO 4711"));
    hand.tap({"recordChoice0", "recordField0"});
    hand.type(QStringLiteral("7"));
    hand.tap({"jobMain"});
}

void changeStage(Hand& hand)
{
    hand.tap({"alertChange", "key_stopped"});
    hand.bench().pass(60);
    hand.tap({"key_done", "key_done"});
    hand.logSet({"1", "1", "1", "55"});
    hand.tap({"key_all"});
    lookAtAll(hand, QStringLiteral("housingPoint"), 5);
    hand.bench().pass(60);
    hand.tap({"key_filtering"});
}

void closeOut(Hand& hand)
{
    hand.tap({"endRun", "key_sample-after", "key_stop"});
    lookAtAll(hand, QStringLiteral("restorePoint"), 8);
    hand.tap({"key_sign"});
}

} // namespace

double secondsOf(const std::vector<Touch>& touches)
{
    double seconds = homeS;
    for (std::size_t i = 0; i < touches.size(); ++i) {
        const bool again = isRepeated(touches, i);
        seconds += touches[i].isArgument || again ? 0.0 : thinkS;
        seconds += again ? keyS : pointS(touches[i]);
    }
    return seconds;
}

std::string operatorsOf(const std::vector<Touch>& touches)
{
    std::string operators = "H";
    int count = 0;
    const auto flush = [&] {
        if (count > 0) {
            operators += " " + (count > 1 ? std::to_string(count) : std::string()) + "P";
        }
        count = 0;
    };
    for (std::size_t i = 0; i < touches.size(); ++i) {
        const bool again = isRepeated(touches, i);
        if (again || !touches[i].isArgument) {
            flush();
            operators += again ? " K" : " M";
        }
        count += again ? 0 : 1;
    }
    flush();
    return operators;
}

const std::vector<Task>& tasks()
{
    static const std::vector<Task> all = {
        {"log a reading: three gauges of two digits (psi) and the oil", [](Hand& hand) { openRun(hand, true); },
         [](Hand& hand) { hand.logSet({"38", "24", "18", "55"}); }},
        {"log a reading: gauges of three, three and two digits (kPa) and the oil",
         [](Hand& hand) { openRun(hand, false); }, [](Hand& hand) { hand.logSet({"145", "110", "40", "24"}); }},
        {"set bypass", [](Hand& hand) { openRun(hand, true); }, [](Hand& hand) { hand.tap({"modeBypassing"}); }},
        {"acknowledge an alert, with the reason to go on", reachLimit,
         [](Hand& hand) { hand.tap({"alertKeep", "reason0"}); }},
        {"change a stage: from the alert to filtering again, with the no-pressure set", reachLimit, changeStage},
        {"start a run: from the shift to the Run screen", nothing, [](Hand& hand) { setUp(hand, true); }},
        {"close out: sample told, shut down, eight points, signed", [](Hand& hand) { openRun(hand, true); }, closeOut},
        {"transfer to waste: plan, second look, stop, litres", nothing,
         [](Hand& hand) {
             planWaste(hand);
             confirmWaste(hand);
             hand.tap({"jobMain"});
             hand.type(QStringLiteral("128"));
             hand.tap({"jobMain"});
         }},
        {"log a batch of a flush", openFlush,
         [](Hand& hand) {
             hand.type(QStringLiteral("10"));
             hand.tap({"jobMain"});
         }},
        {"plan a flush: cart, oil, litres, how thin, who approves", nothing, openFlush},
        {"put a gauge of the last set right, with the reason", [](Hand& hand) { openRun(hand, true); },
         [](Hand& hand) {
             hand.tap({"toLogged", "loggedEntry0", "loggedRemedy0", "loggedField0"});
             hand.type(QStringLiteral("83"));
             hand.tap({"loggedReason0", "jobMain"});
         }},
        {"log what is seen: a leak", [](Hand& hand) { openRun(hand, true); },
         [](Hand& hand) { hand.tap({"note", "noteSign0", "noteLog"}); }},
        {"keep a note in own words (its letters not counted)", beginNote,
         [](Hand& hand) { hand.tap({"note", "noteWrite", "noteKeep"}); }},
        {"stock: a dozen elements received", nothing,
         [](Hand& hand) {
             hand.tap({"toStock", "stockType0", "stockKind0"});
             hand.type(QStringLiteral("12"));
             hand.tap({"jobMain"});
         }},
        {"change a record: the volume of a tank", nothing,
         [](Hand& hand) {
             hand.tap({"toTanks", "record0", "jobMain", "recordField0"});
             hand.type(QStringLiteral("740"));
             hand.tap({"jobMain"});
         }},
        {"import a file of tanks, after its preview", putFile,
         [](Hand& hand) { hand.tap({"toTanks", "tabFile", "file0", "fileKind0", "fileTake"}); }},
        {"plan a job: tank and turnovers (its name not counted)", nothing, planJob},
        {"begin an exercise", nothing, [](Hand& hand) { hand.tap({"toPractice", "exercise2", "exerciseStart"}); }},
    };
    return all;
}

std::vector<Timed> performAll()
{
    std::vector<Timed> timed;
    for (const Task& task : tasks()) {
        test::Bench bench;
        Hand hand(bench);
        task.prepare(hand);
        static_cast<void>(hand.take());
        task.perform(hand);
        timed.push_back({task.name, hand.take()});
    }
    return timed;
}

} // namespace loopside::scene
