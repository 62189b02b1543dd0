// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Set up step by step with a finger: a start that goes, and one against its verdict.
Floor {
    function init() {
        bench.begin();
        open();
        tap("setUp");
    }
    function test_a_cart_that_pumped_waste_asks_for_a_flush() {
        tap("toShift");
        pumpWaste();
        tap("jobLeave");
        tap("setUp");
        tap("tank0");
        tap("step1");
        tap("cart0");
        verify(bench.app.setup.wantsFlush);
        tap("flushThisCart");
        compare(bench.app.page, 4, "the key leads to the flush");
    }
    function test_a_go_is_kept_with_the_run() {
        verify(!part("nextStep").enabled, "nothing goes on before a tank is chosen");
        setUp();
        compare(bench.entries("run-opened"), 1);
        compare(bench.app.page, 1);
        const told = JSON.parse(bench.lastBody("start-told"));
        compare(told.verdict, "go");
        compare(told.oil, "24 °C");
        verify(told.by === undefined);
    }
    function test_a_lower_flow_is_set_before_it_goes() {
        tap("tank1");
        tap("nextStep");
        tap("cart1");
        tap("step3");
        type("13");
        compare(bench.app.setup.verdict.sign, "slower", bench.app.setup.verdict.reason);
        tap("step6");
        verify(!part("nextStep").enabled, "the flow has to be set first");
        verify(!isThere("startAgainst"), "nobody has to start against it");
        tap("takeSlower");
        verify(part("nextStep").enabled);
    }
    function test_a_no_go_starts_only_with_a_name_and_a_reason() {
        tap("tank3");
        tap("nextStep");
        tap("cart0");
        tap("nextStep");
        tap("step3");
        type("8");
        compare(bench.app.setup.verdict.level, "danger", bench.app.setup.verdict.reason);
        tap("step4");
        tap("placement0");
        lookAtAll("hosePoint", 3);
        tap("step5");
        tap("target0");
        tap("step7");
        lookAtAll("areaPoint", 9);
        verify(!isThere("startRun"), "it does not start while the verdict stands");
        tap("step6");
        tap("startAgainst");
        tap("overridePerson1");
        verify(!part("overrideKeep").enabled, "a name alone is not enough");
        tap("overrideReason0");
        tap("overrideKeep");
        verify(isThere("overrideTold"));
        while (isThere("nextStep")) {
            // the cautions of cart and elements are looked at first
            tap("nextStep");
        }
        tap("startRun");
        const told = JSON.parse(bench.lastBody("start-told"));
        compare(told.verdict, "no-go");
        compare(told.limiting, "suction");
        compare(told.by, "018f3b5e-0002-7000-8000-000000000002", "an id: names stay out of the journal");
        compare(told.why, "Told to by the supervisor");
    }
    function test_an_override_falls_when_the_oil_is_measured_again() {
        tap("tank3");
        tap("nextStep");
        tap("cart1");
        tap("step3");
        type("8");
        tap("step6");
        tap("startAgainst");
        tap("overridePerson0");
        tap("overrideReason0");
        tap("overrideKeep");
        tap("step3");
        type("2");
        verify(bench.app.setup.overrideText === "", "it was given for another temperature");
    }
    function test_nothing_is_typed_before_somebody_types() {
        tap("tank0");
        tap("nextStep");
        tap("cart0");
        tap("nextStep");
        compare(bench.app.setup.step, 3, "elements that need nobody are passed");
        compare(part("oil0Text").text, "");
        tap("oil0Unit");
        type("75");
        tap("nextStep");
        tap("placement0");
        lookAtAll("hosePoint", 3);
        tap("nextStep");
        tap("target0");
        tap("nextStep");
        lookAtAll("areaPoint", 9);
        tap("startRun");
        compare(JSON.parse(bench.lastBody("start-told")).oil, "75 °F", "as typed");
    }
    function test_oil_below_zero_is_typed_by_touch() {
        tap("tank0");
        tap("nextStep");
        tap("cart0");
        tap("nextStep");
        type("-6");
        compare(part("oil0Text").text, "-6");
        verify(bench.app.setup.verdict.level !== "none", "a verdict stands for cold oil");
    }
    function test_the_keyboard_goes_through_set_up() {
        tap("tank0");
        keyClick(Qt.Key_Return);
        compare(bench.app.setup.step, 1);
        tap("cart0");
        keyClick(Qt.Key_Return);
        compare(bench.app.setup.step, 3);
        keyClick("2");
        keyClick("4");
        compare(part("oil0Text").text, "24");
        keyClick(Qt.Key_Backspace);
        compare(part("oil0Text").text, "2");
    }

    name: "SetUp"
}
