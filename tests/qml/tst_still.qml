// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// For who wants nothing to flash or move: frames stand, needles stand, and what they tell is told all the same.
Floor {
    /// How many values `watched` had of `item` while the window drew for `ms`.
    function changesOf(item, watched, ms) {
        let changes = 0;
        let before = watched(item);
        for (let waited = 0; waited < ms; waited += 20) {
            wait(20);
            const now = watched(item);
            changes += now !== before ? 1 : 0;
            before = now;
        }
        return changes;
    }
    function dial(low, high) {
        return made("Dial.qml", {
                "graduation": 1,
                "height": 200,
                "high": high,
                "low": low,
                "name": "G1",
                "span": 60,
                "spoken": "",
                "unit": "psi",
                "width": 200
            });
    }
    function init() {
        bench.begin();
        open();
    }
    function made(file, values) {
        const component = Qt.createComponent("qrc:/qt/qml/Loopside/Ui/" + file);
        verify(component.status === Component.Ready, component.errorString());
        return component.createObject(everything(), values);
    }
    function stayStill(isStill) {
        bench.app.showSettings();
        bench.app.wishes.chooseMotion(isStill ? 1 : 0);
        bench.app.wishes.log();
        compare(bench.app.isStill, isStill);
    }
    function test_a_frame_flashes_and_stands_for_who_wants_that() {
        const frame = made("FlashingFrame.qml", {
                "height": 100,
                "running": true,
                "shown": "red",
                "width": 100
            });
        const isVisible = item => item.visible;
        const flashes = changesOf(frame, isVisible, 1500);
        verify(flashes >= 4 && flashes <= 7, "2 Hz are four changes a second: " + flashes + " in 1.5 s");
        stayStill(true);
        compare(changesOf(frame, isVisible, 1500), 0);
        verify(frame.visible, "it stands, it is not gone");
        frame.destroy();
    }
    function test_a_needle_swings_and_is_two_needles_for_who_wants_that() {
        const swinging = dial(20, 30);
        const rotation = item => item.rotation;
        const needle = findChild(swinging, "needle");
        const high = findChild(swinging, "needleHigh");
        verify(changesOf(needle, rotation, 600) > 5);
        verify(!high.visible);
        stayStill(true);
        compare(changesOf(needle, rotation, 600), 0);
        fuzzyCompare(needle.rotation, swinging.angleOf(20), 0.001);
        verify(high.visible);
        fuzzyCompare(high.rotation, swinging.angleOf(30), 0.001);
        swinging.destroy();
    }
    function test_a_needle_that_does_not_swing_is_one() {
        const standing = dial(20, 0);
        stayStill(true);
        verify(!findChild(standing, "needleHigh").visible);
        compare(changesOf(findChild(standing, "needle"), item => item.rotation, 300), 0);
        standing.destroy();
    }

    name: "Still"
}
