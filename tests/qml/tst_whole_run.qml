// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// A whole run with nothing but a finger: set-up, readings, alert, changeover, close-out.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function test_a_run_with_an_alert_a_changeover_and_a_close_out() {
        verify(!isThere("startRun"), "a run does not start before everything is chosen");
        setUp();
        compare(bench.entries("run-opened"), 1);
        compare(bench.entries("check-answered"), 13);
        tap("modeFiltering");
        verify(isThere("hintConfirm"), "the first mode of a shift says that it only records");
        compare(bench.entries("mode-changed"), 0);
        tap("hintConfirm");
        compare(bench.entries("mode-changed"), 1);
        bench.pass(120);
        logSet("145", "110", "40", "24");
        compare(bench.entries("reading-logged"), 1);
        compare(part("G1Value").text, "145");
        compare(bench.lastBody("reading-logged"), '{"gauges":["145","110","40"],"oil":"24 °C"}');
        verify(!bench.app.alert.isUp);
        bench.pass(180);
        logSet("280", "110", "40", "25");
        verify(bench.app.alert.isUp, "170 kPa is the limit of stage 1");
        verify(part("alertTitle").text.indexOf("Stage 1") >= 0);
        verify(part("alertEvidence").text.indexOf("170\u00a0kPa") >= 0);
        tap("alertChange");
        compare(bench.entries("alert-acknowledged"), 1);
        tap("key_stopped");
        bench.pass(60);
        tap("key_done");
        tap("key_done");
        logSet("60", "10", "10", "25");
        verify(isThere("changeoverWarning"), "a gauge above its no-pressure reading stops the changeover");
        compare(bench.entries("elements-changed"), 0);
        logSet("10", "10", "10", "25");
        tap("key_all");
        compare(bench.lastBody("elements-changed"), '{"stage":1,"elements":2}');
        verify(part("changeoverCaution").text.indexOf("Pressure may be left") >= 0, "the housing is open: its caution stands over the points");
        lookAtAll("housingPoint", 5);
        bench.pass(60);
        tap("key_filtering");
        bench.pass(120);
        logSet("145", "110", "40", "26");
        for (let minutes = 0; minutes < 165; minutes += 15) {
            bench.pass(15 * 60);
            logSet("140", "105", "40", "30");
        }
        verify(bench.entries("alert-raised") >= 2);
        tap("endRun");
        tap("key_sample-after");
        tap("key_stop");
        compare(bench.entries("run-closed"), 1);
        verify(bench.lastBody("run-closed").indexOf('"ending":"target-met"') >= 0);
        lookAtAll("restorePoint", 8);
        tap("key_sign");
        verify(bench.app.closeOut.isSigned);
        bench.app.backToRun();
        verify(!part("key1").enabled, "a closed run takes no reading");
        tap("note");
        verify(isThere("noteWrite"), "and a note all the same");
        tap("noteClose");
        compare(bench.compareWithFold(), "", "the journal folds to the state that the screens had");
    }
    function test_the_keyboard_does_what_the_keys_do() {
        setUp();
        record("modeFiltering");
        bench.pass(60);
        for (const sign of "145") {
            keyClick(sign);
        }
        compare(bench.app.pad.active, 1);
        for (const sign of "110") {
            keyClick(sign);
        }
        keyClick("4");
        keyClick("0");
        keyClick(Qt.Key_Return);
        compare(bench.app.pad.active, 3);
        keyClick("2");
        keyClick("4");
        keyClick(Qt.Key_Return);
        compare(bench.entries("reading-logged"), 1);
    }
    function test_two_runs_are_open_and_a_chip_switches() {
        setUp();
        record("modeFiltering");
        setUpRun(1, 1, "55");
        compare(bench.app.run.tankName, "Winder gearbox");
        tap("chip0");
        compare(bench.app.run.tankName, "Press hydraulic unit");
    }

    name: "WholeRun"
}
