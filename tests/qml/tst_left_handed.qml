// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// For a left hand each page is its mirror: what stood at the right stands as far from the left edge.
Floor {
    /// How far the middle of `name` is from the left edge, in parts of the width.
    function across(name) {
        const item = part(name);
        return item.mapToItem(everything(), item.width / 2, 0).x / everything().width;
    }
    function beLeftHanded(isLeft) {
        const wishes = bench.app.wishes;
        bench.app.showSettings();
        wishes.choose(0);
        wishes.chooseHand(isLeft ? 1 : 0);
        tap("wishesLog");
        compare(bench.app.isLeftHanded, isLeft);
    }
    /// In a tall window `keys` stand right of `fields` on the page that `go` leads to, and left of them for a left hand.
    function changeSides(go, keys, fields) {
        window.width = 800;
        window.height = 1280;
        tryCompare(everything(), "height", 1280);
        go();
        verify(across(keys) > across(fields) + 0.2, keys + " is at the right");
        beLeftHanded(true);
        go();
        verify(across(keys) < across(fields) - 0.2, keys + " is at the left");
    }
    function init() {
        bench.begin();
        open();
    }
    /// `names` stand mirrored on the page that `go` leads to.
    function mirrored(go, names) {
        go();
        const right = names.map(name => across(name));
        beLeftHanded(true);
        go();
        for (let i = 0; i < names.length; ++i) {
            fuzzyCompare(across(names[i]), 1 - right[i], 0.06, names[i] + " is mirrored");
            verify(Math.abs(right[i] - 0.5) > 0.05, names[i] + " is not in the middle, where nothing could be seen");
        }
    }
    function test_close_out() {
        setUp();
        record("modeFiltering");
        mirrored(() => bench.app.openCloseOut(), ["leave", "proofText"]);
    }
    function test_file() {
        bench.writeFile("tanks.csv", "name,volume_l\nAlcove pump,60\n");
        mirrored(() => bench.app.showFile(), ["fileTake", "fileLeave", "file0"]);
    }
    function test_oil_in_portrait() {
        changeSides(() => {
                bench.app.showSetUp();
                bench.app.setup.show(3);
            }, "key5", "oil0");
    }
    function test_people() {
        mirrored(() => bench.app.showPeople(), ["wishesLog", "wisher0"]);
    }
    function test_run() {
        setUp();
        record("modeFiltering");
        bench.pass(10);
        mirrored(() => bench.app.backToRun(), ["modeStopped"]);
        const order = ["keyMain", "endRun", "modeFiltering", "modeBypassing", "modeStopped"].map(name => across(name));
        for (let i = 1; i < order.length; ++i) {
            verify(order[i] > order[i - 1], "the end of the run stands next to the pad, as for a right hand");
        }
    }
    function test_run_in_portrait() {
        setUp();
        record("modeFiltering");
        changeSides(() => bench.app.backToRun(), "keyMain", "field0");
        verify(across("key5") < across("field0") - 0.2);
        verify(across("endRun") < 0.2);
        verify(across("modeStopped") < 0.7);
    }
    function test_set_up() {
        mirrored(() => bench.app.showSetUp(), ["nextStep", "step0"]);
    }
    function test_settings() {
        mirrored(() => bench.app.showSettings(), ["wishesLog", "about"]);
    }
    function test_set_up_in_portrait() {
        changeSides(() => bench.app.showSetUp(), "nextStep", "verdictReason");
    }
    function test_stock_in_portrait() {
        changeSides(() => bench.app.showStock(), "key5", "jobMain");
    }

    name: "LeftHanded"
}
