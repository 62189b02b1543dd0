// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// A run goes from hand to hand, and two runs are one, with a finger and with a keyboard.
Floor {
    id: root
    function init() {
        bench.begin();
        open();
    }
    function test_a_code_by_keyboard_that_is_not_known_leads_to_a_new_run_and_stays() {
        tap("toTakeOver");
        for (const sign of "7k3") {
            keyClick(sign);
        }
        keyClick("u");
        keyClick("m");
        keyClick("9");
        keyClick("q");
        compare(part("codeTyped").text, "7K3M9Q");
        tap("key_set-up");
        tap("toShift");
        tap("toTakeOver");
        compare(part("codeTyped").text, "7K3M9Q");
        tap("codeBack");
        compare(part("codeTyped").text, "7K3M9");
        verify(!isThere("key_set-up"), "five signs are no code");
    }
    function test_a_run_is_handed_on_at_one_tablet_and_both_say_so() {
        setUp();
        record("modeFiltering");
        const before = bench.app.person;
        tap("who");
        tap("toHandOn");
        tap("receiver0");
        tap("key_hand");
        compare(JSON.parse(bench.lastBody("kept")).what, "handover");
        verify(!isThere("key_take"), "first the valve is read");
        tap("valve0");
        tap("key_take");
        compare(bench.app.page, 1, "to the run");
        verify(bench.app.person !== before, "who took the run holds the tablet");
        compare(JSON.parse(bench.lastBody("kept")).what, "adopt");
        compare(JSON.parse(bench.lastBody("check-answered")).check, "handover-valve");
        compare(bench.compareWithFold(), "");
    }
    function test_nobody_takes_it_on_and_the_pump_is_stopped() {
        setUp();
        record("modeFiltering");
        tap("endRun");
        tap("key_hand-on");
        const last = bench.app.handOn.receivers.rowCount() - 1;
        tap("receiver" + last);
        tap("key_stop");
        compare(bench.app.run.mode, "stopped");
        verify(!bench.app.run.isClosed, "it stays open");
        tap("leave");
        compare(bench.app.page, 1, "to the run");
    }
    function test_the_own_run_by_its_code_is_nothing_to_take_over() {
        setUp();
        const code = bench.app.run.runCode;
        compare(code.length, 6);
        tap("toShift");
        tap("toTakeOver");
        typeCode(code);
        verify(!isThere("valve0"));
        tap("key_look");
        compare(bench.app.page, 1, "to the run");
        tap("toShift");
        tap("toTakeOver");
        compare(part("codeTyped").text, "", "it is no draft any more");
    }
    function test_two_runs_of_one_cart_are_said_to_be_one_and_two_after_all() {
        setUp();
        record("modeFiltering");
        setUp();
        record("modeFiltering");
        bench.pass(60);
        tap("toShift");
        tap("work2"); // behind the two runs
        tap("key_one");
        compare(JSON.parse(JSON.parse(bench.lastBody("kept")).details).accepted, true);
        verify(!isThere("key_one"));
        tap("work0");
        verify(part("runHands").text.indexOf("One with ") === 0, part("runHands").text);
        tap("who");
        tap("toHandOn");
        tap("key_link");
        tap("key_two");
        compare(JSON.parse(JSON.parse(bench.lastBody("kept")).details).accepted, false);
        compare(bench.compareWithFold(), "");
    }
    function typeCode(code) {
        for (const sign of code) {
            tap("code" + sign);
        }
    }
}
