// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// The bottles of a run, with a finger.
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
    function test_a_bottle_is_drawn_and_counted() {
        tap("toKit");
        tryVerify(() => isThere("jobCaution"));
        verify(!isThere("kitCaution"), "once is enough");
        compare(part("kitTitle").text, "Before filtering");
        tap("kitPlace1");
        tap("kitPurge");
        bench.pass(30);
        tap("kitPurge");
        compare(part("kitPurge").detail, "0:30");
        tap("kitField0");
        type("41");
        tap("kitMachine1");
        const caution = part("jobCaution");
        verify(caution.text.includes("under pressure"));
        verify(caution.mapToItem(everything(), 0, 0).y > 0, "however far it is scrolled");
        verify(caution.mapToItem(everything(), 0, caution.height).y < everything().height);
        tap("jobMain");
        tryVerify(() => isThere("resultField0"));
        const drawn = JSON.parse(bench.lastBody("sample-drawn"));
        compare(drawn.port, 1);
        compare(drawn.purged_s, 30);
        compare(drawn.machine, "idle");
        verify(isThere("kitLabel"));
        tap("resultField1");
        verify(part("resultField1").isActive);
        type("9000");
        tap("resultField2");
        type("2100");
        tap("resultField3");
        type("300");
        tap("resultMethod0");
        tap("jobMain");
        const told = JSON.parse(bench.lastBody("result-entered"));
        compare(told.sample, drawn.id);
        compare(told.counts_per_ml, ["9000", "2100", "300"]);
        tap("jobLeave");
        tryVerify(() => isThere("codeText"));
        compare(bench.compareWithFold(), "");
    }
    function test_close_out_leads_to_the_bottles_and_back() {
        tap("endRun");
        tap("key_kit");
        tryVerify(() => isThere("bottle0"));
        tap("jobLeave");
        tryVerify(() => isThere("key_kit"));
    }

    name: "Kit"
}
