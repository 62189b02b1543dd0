// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// The jobs that are no cleaning runs, with a finger: what they leave in the journal.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function test_a_flush_leaves_its_batches_and_its_close() {
        tap("toFlush");
        tap("flushCart0");
        tap("flushFluid1");
        tap("flushField0");
        type("1.5");
        tap("flushField1");
        type("10");
        tap("flushWanted0");
        verify(!part("jobMain").enabled, "somebody has to approve it");
        tap("flushApprover2");
        tap("jobMain");
        compare(bench.entries("flush-opened"), 1);
        const opened = JSON.parse(bench.lastBody("flush-opened"));
        compare(opened.cart, "Cart B");
        compare(opened.approver, "018f3b5e-0003-7000-8000-000000000003", "an id: names stay out of the journal");
        verify(!part("jobMain").enabled, "no batch is logged before it is typed");
        for (let batch = 0; batch < 3; ++batch) {
            type("10");
            tap("jobMain");
        }
        compare(bench.entries("flush-batch"), 3);
        verify(bench.app.flush.isThinEnough, "(1.5 / 11.5)^3 is 0.22 %, under 1 %; computed");
        verify(bench.app.flush.standing.indexOf("0.22\u00A0%") >= 0, bench.app.flush.standing);
        tap("flushClose");
        tap("elementsRenewed");
        compare(bench.entries("flush-closed"), 1);
        compare(JSON.parse(bench.lastBody("flush-closed")).elements_renewed, true);
        compare(bench.entries("run-opened"), 0, "a flush is no run");
    }
    function test_a_flush_under_way_is_found_again_after_a_restart() {
        tap("toFlush");
        tap("flushCart0");
        tap("flushFluid1");
        tap("flushField0");
        type("1.5");
        tap("flushField1");
        type("10");
        tap("flushWanted0");
        tap("flushApprover0");
        tap("jobMain");
        cleanup();
        bench.restart();
        open();
        tap("work0");
        compare(bench.app.page, 4);
        type("10");
        tap("jobMain");
        compare(bench.entries("flush-batch"), 1);
    }
    function test_the_label_of_a_container_is_written_by_a_touch() {
        cleanup();
        bench.beginOnDisk();
        open();
        planWaste();
        type("221");
        tap("valve0");
        lookAtAll("wastePoint", 4);
        tap("jobMain");
        verify(!isThere("wasteLabels0"), "the pump runs: nobody knows how much it is");
        bench.pass(60);
        tap("jobMain");
        type("21");
        tap("jobMain");
        tap("wasteLabels0");
        for (let i = 0; i < 200 && part("wasteLabelsText").text.indexOf("written:") < 0; ++i) {
            wait(10);
            bench.pass(1);
        }
        verify(/labels-.*pdf/.test(part("wasteLabelsText").text), part("wasteLabelsText").text);
    }
    function test_another_plate_stops_the_transfer() {
        planWaste();
        type("107");
        verify(bench.app.transfer.isWrongTank, "107 is on the debarker gearbox");
        verify(bench.app.transfer.warning.indexOf("Winder gearbox") >= 0);
        tap("valve0");
        lookAtAll("wastePoint", 4);
        verify(!part("jobMain").enabled);
        compare(bench.entries("transfer-opened"), 0);
    }
    function test_waste_leaves_its_entries_and_marks_the_cart() {
        planWaste();
        type("221");
        tap("valve0");
        lookAtAll("wastePoint", 4);
        tap("jobMain");
        const opened = JSON.parse(bench.lastBody("transfer-opened"));
        compare(opened.tank, "Winder gearbox");
        compare(opened.confirmed, "221");
        compare(opened.checks.length, 4);
        compare(opened.checks[0], {
                "check": "transfer-known-oil",
                "say": "done"
            });
        const caution = part("wasteCaution");
        verify(caution.visible);
        verify(caution.mapToItem(everything(), 0, caution.height).y < part("jobMain").mapToItem(everything(), 0, 0).y, "the caution is seen whole");
        const left = part("wasteCountdown");
        verify(caution.mapToItem(everything(), 0, 0).y < left.mapToItem(everything(), 0, 0).y);
        verify(left.mapToItem(everything(), 0, left.height).y < part("jobMain").mapToItem(everything(), 0, 0).y, "so is the time that is left");
        compare(part("wasteCountdown").text, "5:26", "205 − 60 = 145 L free, 90 % of it at 24 L/min is 5 min 26 s; computed");
        bench.pass(60);
        compare(part("wasteCountdown").text, "4:26");
        verify(!bench.app.transfer.isOverdue);
        bench.pass(300);
        verify(bench.app.transfer.isOverdue);
        tap("jobMain");
        type("128");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("transfer-stopped")).moved, "128 L");
        verify(isThere("cartMarked"));
        compare(part("wasteLabel3").text, "Volume: 128\u00a0L");
        verify(/^Date: \d{4}-\d{2}-\d{2}$/.test(part("wasteLabel4").text), part("wasteLabel4").text);
        compare(bench.entries("run-opened"), 0, "waste is no run");
    }

    name: "Jobs"
}
