// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// An exercise from the page of exercises to its look back, with nothing but a finger.
Floor {
    id: root

    readonly property var exercise: bench.app.practice.exercise

    function begin(row) {
        tap("toPractice");
        tap("exercise" + row);
        tap("exerciseStart");
        tap("rate0"); // the clock stands; it goes on by "to the next reading" alone
    }
    function init() {
        bench.begin();
        open();
    }
    function readDials() {
        const values = [];
        for (let i = 0; i < 3; ++i) {
            const dial = part("dial" + i);
            const marks = Math.round(dial.low / dial.graduation);
            values.push((marks * dial.graduation).toFixed(dial.graduation < 1 ? 1 : 0));
        }
        logSet(values[0], values[1], values[2], part("practiceOil").text.split(" ")[0]);
    }
    function change() {
        tap("alertChange");
        tap("key_stopped");
        tap("key_done");
        tap("key_done");
        tap("atCart");
        readDials();
        tap("key_all");
        tap("atCart"); // it stands before the points of the housing
        lookAtAll("housingPoint", 5);
        tap("key_filtering");
    }
    function test_a_whole_exercise() {
        const before = bench.hashes();
        begin(2);
        verify(isThere("practiceMark"), "the word practice stands over every screen");
        verify(!isThere("toShift") && !isThere("who"), "no key leads to the real pages but by the end");
        readDials();
        record("modeFiltering");
        let changes = 0;
        for (let sets = 0; sets < 60 && exercise.app.run.turnoversBest < 4.0; ++sets) {
            tap("nextReading");
            readDials();
            if (exercise.app.alert.isUp) {
                verify(isThere("practiceMark"));
                change();
                ++changes;
            }
        }
        compare(changes, 1);
        tap("endRun");
        tap("key_sample-after");
        tap("key_stop");
        tap("practiceEnd");
        tap("practiceEndYes");
        verify(isThere("debriefHidden"));
        compare(part("debriefScore").text.indexOf("4 of 4"), 0);
        verify(isThere("practiceMark"));
        tap("debriefLeave");
        compare(exercise, null);
        verify(!isThere("practiceMark"));
        tap("toShift");
        verify(isThere("onlyHere"));
        compare(bench.hashes(), before, "the real journal is as it was");
        compare(bench.entries("run-opened"), 0);
    }
    function test_a_look_an_opinion_and_again() {
        begin(7);
        tap("look");
        tap("choice0");
        verify(part("sight").text.indexOf("return hose") >= 0);
        tap("think");
        tap("choice11");
        tap("choice1");
        verify(part("sight").text.indexOf("Gauge 2") >= 0);
        tap("practiceEnd");
        tap("practiceBack");
        verify(!exercise.isOver);
        tap("practiceEnd");
        tap("practiceEndYes");
        tap("debriefAgain");
        verify(exercise !== null && !exercise.isOver);
        tap("practiceEnd");
        tap("practiceEndYes");
        tap("debriefLeave");
        compare(exercise, null);
    }
    function test_nobody_practises_while_a_real_cart_pumps() {
        setUp();
        record("modeFiltering");
        tap("toShift");
        tap("toPractice");
        verify(isThere("practiceProblem"));
        verify(!part("exerciseStart").enabled);
    }

    name: "Practice"
}
