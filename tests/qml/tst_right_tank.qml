// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Is this the right tank? By touch, with the whole screen where it is not.
Floor {
    /// Sign by sign into the line of the sheet, as a hand does; then the key beside it.
    function compareTyped(text) {
        tap("checkTank");
        verify(!part("tankCompare").enabled);
        mouseClick(part("tankTyped"));
        for (const sign of text) {
            keyClick(sign);
        }
        tryVerify(() => part("tankCompare").enabled);
        tap("tankCompare");
    }
    function init() {
        bench.begin();
        open();
        tap("setUp");
        tap("tank0");
    }
    function mismatch() {
        bench.app.takeTag("BM-ST-003");
        verify(isThere("goToRightTank"));
    }
    function test_a_mismatch_has_two_ways_and_no_third() {
        mismatch();
        for (const way of ["nextStep", "checkTank", "tank1", "tankCheckBack"]) {
            const key = findChild(everything(), way);
            verify(!key || !key.visible || !key.enabled, way + " waits");
        }
        keyClick(Qt.Key_Escape);
        keyClick(Qt.Key_Return);
        bench.pass(600);
        verify(isThere("goToRightTank"), "it stays until somebody says what is so");
        tap("goToRightTank");
        verify(!isThere("goToRightTank"));
        compare(part("nextStep").enabled, true);
    }
    function test_another_tanks_tag_takes_the_screen_of_an_open_run() {
        bench.playScene("gauge-stuck");
        bench.app.backToRun();
        bench.app.takeTag("BM-ST-003");
        verify(isThere("goToRightTank"));
        keyClick(Qt.Key_Escape);
        keyClick(Qt.Key_Return);
        bench.pass(30);
        verify(isThere("goToRightTank"), "it stays until somebody says what is so");
        tap("orderIsWrong");
        verify(!part("wrongTankKeep").enabled, "no reason is given yet");
        tap("wrongTankBack");
        tap("goToRightTank");
        verify(!isThere("goToRightTank"));
        compare(bench.entries("run-moved"), 0);
        bench.app.takeTag("BM-ST-003");
        tap("orderIsWrong");
        tap("wrongTankReason0");
        verify(!isThere("goToRightTank"));
        compare(bench.entries("run-moved"), 1);
    }
    function test_an_order_that_is_wrong_wants_a_reason() {
        mismatch();
        tap("orderIsWrong");
        tap("wrongTankBack");
        verify(isThere("goToRightTank"));
        tap("orderIsWrong");
        verify(!part("wrongTankKeep").enabled, "no reason is given yet");
        tap("wrongTankReason1");
        verify(!isThere("goToRightTank"));
        compare(bench.app.setup.tankCheck.knownSign, "caution");
    }
    function test_the_plate_is_typed_and_the_oil_is_touched() {
        compareTyped("bm-hy-012");
        tap("tankOil0");
        compare(bench.app.setup.tankCheck.knownSign, "done");
        tap("tankCheckBack");
        verify(!isThere("tankOil0"));
    }
    function test_what_is_typed_and_does_not_fit_takes_the_screen_over_the_sheet() {
        compareTyped("bm-gb-221");
        verify(isThere("goToRightTank"));
        tap("goToRightTank");
        verify(isThere("tankOil0"), "the sheet is still there");
    }
}
