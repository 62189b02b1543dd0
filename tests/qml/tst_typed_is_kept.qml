// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// What was typed is never lost, and never logged by itself.
Floor {
    function init() {
        bench.begin();
        open();
        setUp();
        record("modeFiltering");
        bench.pass(60);
    }
    function test_a_full_disk_logs_nothing_and_keeps_what_was_typed() {
        bench.breakDisk(true);
        logSet("145", "110", "40", "24");
        compare(bench.entries("reading-logged"), 0);
        compare(part("field0Text").text, "145");
        compare(part("field3Text").text, "24");
        verify(bench.app.trouble.indexOf("disk is full") >= 0, bench.app.trouble);
        tap("troubleSeen");
        bench.breakDisk(false);
        tap("keyMain");
        compare(bench.entries("reading-logged"), 1);
        compare(part("field0Text").text, "");
    }
    function test_a_gauge_that_cannot_be_read_and_one_that_swings() {
        tap("field0");
        type("14");
        tap("swings");
        type("19");
        tap("field1");
        tap("cannotRead");
        tap("field2");
        type("40");
        tap("field3");
        tap("cannotRead");
        tap("readEarlier");
        tap("keyMain");
        compare(bench.lastBody("reading-logged"), '{"gauges":[{"min":"14","max":"19"},null,"40"]}');
    }
    function test_a_needle_above_the_dial_is_kept_and_questioned() {
        logSet("705", "110", "40", "24"); // full scale is 700 kPa
        compare(bench.entries("reading-logged"), 1);
        compare(bench.app.run.lineLevel, "caution");
        verify(bench.app.alert.isUp, "a set over the limit alerts at once, questioned or not");
    }
    function test_backspace_goes_back_across_fields() {
        tap("field0");
        type("145");
        type("11"); // the pad went on by itself
        compare(part("field1Text").text, "11");
        for (const left of ["1", ""]) {
            tap("keyBack");
            compare(part("field1Text").text, left);
        }
        tap("keyBack"); // nothing is left there: the field before
        compare(part("field0Text").text, "14");
        type("4");
        compare(part("field0Text").text, "144");
        type("2");
        compare(part("field1Text").text, "2", "and on again");
    }
    function test_backspace_on_the_keyboard_goes_back_across_fields_too() {
        tap("field0");
        for (const sign of "14511") {
            keyClick(sign);
            wait(60); // as a person types, not a tag reader
        }
        for (let i = 0; i < 3; ++i) {
            keyClick(Qt.Key_Backspace);
        }
        compare(part("field1Text").text, "");
        compare(part("field0Text").text, "14");
        for (let i = 0; i < 9; ++i) {
            keyClick(Qt.Key_Backspace);
        }
        compare(part("field0Text").text, "", "at the beginning it stays");
        compare(bench.app.pad.active, 0);
    }
    function test_half_a_set_survives_a_kill_and_is_offered_again() {
        tap("field0");
        type("145");
        type("11");
        cleanup();
        bench.restart();
        open();
        compare(bench.entries("reading-logged"), 0, "a draft is never logged");
        compare(part("field0Text").text, "145");
        compare(part("field1Text").text, "11");
        verify(part("padNotice").text !== "", "the pad says that this was typed before");
    }
    function test_last_values_stand_beside_and_never_in_the_box() {
        logSet("145", "110", "40", "24");
        compare(part("field0Text").text, "");
        verify(!bench.app.pad.isComplete);
    }
    function test_no_number_is_refused_with_a_sentence_and_stays_in_its_box() {
        tap("field0");
        type("-.");
        tap("keyMain");
        compare(bench.entries("reading-logged"), 0);
        compare(part("field0Text").text, "-.");
        verify(part("padNotice").text !== "");
    }
    function test_oil_below_zero_is_typed_by_touch() {
        tap("field3");
        type("-6.5");
        compare(part("field3Text").text, "-6.5");
    }
    function test_the_point_still_belongs_to_a_number_that_went_on_by_itself() {
        tap("field0");
        type("145");
        compare(bench.app.pad.active, 1);
        compare(bench.app.pad.point, ".");
        tap("field1");
        compare(bench.app.pad.point, "−");
    }
    function test_two_quick_touches_are_two_digits() {
        tap("field0");
        type("111");
        compare(part("field0Text").text, "111");
    }

    name: "TypedIsKept"
}
