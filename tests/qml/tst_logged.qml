// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Putting right what was logged, and telling what is seen or heard, with a finger.
Floor {
    function init() {
        bench.begin();
        open();
        setUp();
        record("modeFiltering");
        bench.pass(60);
        logSet("145", "110", "40", "24");
        bench.pass(60);
    }
    function test_a_set_is_struck_with_a_reason() {
        tap("toLogged");
        tap("loggedEntry0");
        tap("loggedRemedy1");
        tap("loggedReason4");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("amended")).why, "Logged twice");
        compare(bench.compareWithFold(), "");
    }
    function test_a_set_with_a_slip_is_put_right_and_stays_readable_as_it_was() {
        tap("toLogged");
        tap("loggedEntry0");
        tap("loggedRemedy0");
        compare(part("loggedField0Text").text, "", "nothing is filled in before somebody types");
        type("154");
        verify(!part("jobMain").enabled, "not without a reason");
        tap("loggedReason0");
        tap("jobMain");
        const amended = JSON.parse(bench.lastBody("amended"));
        compare(amended.set.gauges[0], "154");
        compare(amended.why, "Typed wrong");
        compare(bench.entries("reading-logged"), 1);
        tap("jobLeave");
        tryVerify(() => isThere("field0"));
        compare(bench.compareWithFold(), "");
    }
    function test_a_wrong_mode_key_is_put_right() {
        record("modeBypassing");
        tap("toLogged");
        tap("loggedEntry0");
        tap("loggedRemedy0");
        tap("loggedMode2");
        tap("loggedReason3");
        tap("jobMain");
        compare(bench.app.run.mode, "filtering");
    }
    function test_one_of_the_last_readings_is_put_right_from_the_run() {
        for (let i = 0; i < 11; ++i) {
            logSet("146", "110", "40", "25");
            bench.pass(300);
        }
        tap("toReadings");
        tryVerify(() => isThere("reading9"));
        verify(!isThere("reading10"), "ten of the twelve sets");
        compare(part("reading0").text, "G1 146\u00a0kPa · G2 110\u00a0kPa · G3 40\u00a0kPa · 25\u00a0°C");
        tap("reading9");
        tryVerify(() => isThere("loggedTitle"));
        compare(part("loggedTitle").text, "G1 146\u00a0kPa · G2 110\u00a0kPa · G3 40\u00a0kPa · 25\u00a0°C");
        tap("loggedField0");
        type("164");
        tap("loggedReason0");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("amended")).set.gauges[0], "164");
        tap("jobLeave");
        tap("toReadings");
        compare(part("reading9").text, "G1 164\u00a0kPa · G2 110\u00a0kPa · G3 40\u00a0kPa · 25\u00a0°C");
        verify(part("reading9").detail.includes("put right"));
        tap("readingsBack");
        tryVerify(() => !isThere("reading0"));
        compare(bench.compareWithFold(), "");
    }
    function test_the_run_moves_to_the_tank_that_it_was() {
        const before = bench.app.run.tankName;
        tap("toLogged");
        tap("loggedRemedy2");
        tap("loggedTank1");
        tap("loggedReason2");
        tap("jobMain");
        verify(bench.app.run.tankName !== before);
        compare(bench.entries("run-moved"), 1);
    }

    name: "Logged"
}
