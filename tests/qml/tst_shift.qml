// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Where a shift begins, and the pages of the site, with a finger and with a keyboard.
Floor {
    function chooseStockType() {
        tap("toStock");
        tap("stockType0");
    }
    function init() {
        bench.begin();
        open();
    }
    function test_a_change_of_a_tank_by_touch_is_put_whole() {
        tap("toTanks");
        tap("record0");
        tap("jobMain");
        tap("recordField0");
        type("740");
        compare(part("recordField0Text").text, "740");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("tank-put")).tank.volume, "740 L");
        compare(JSON.parse(bench.lastBody("tank-put")).tank.capacity, "900 L", "what was not typed stays");
        verify(!isThere("recordField0"), "the page shows what is known again");
        tap("jobLeave");
        verify(isThere("toTanks"), "and leads back to the shift");
    }
    function test_a_change_that_is_left_stays_a_draft() {
        tap("toCarts");
        tap("record0");
        tap("jobMain");
        tap("recordGroup1");
        tap("recordField8");
        type("15");
        tap("jobLeave");
        cleanup();
        bench.restart();
        open();
        compare(bench.entries("cart-put"), 0);
        tap("toCarts");
        tap("record0");
        tap("jobMain");
        tap("recordGroup1");
        compare(part("recordField8Text").text, "15");
        verify(part("recordEditNotice").text.indexOf("Typed before") === 0, part("recordEditNotice").text);
    }
    function test_a_run_is_opened_from_the_history_of_its_tank() {
        setUp();
        const name = bench.app.run.tankName;
        tap("toShift");
        tap("toTanks");
        tap("record0");
        tap("moveRun0");
        compare(bench.app.page, 1, "to the run");
        compare(bench.app.run.tankName, name);
    }
    function test_an_alert_is_taken_out_of_service_and_put_back() {
        setUp();
        tap("why");
        tap("alertLog");
        tap("toService");
        tap("service0");
        tap("serviceReason0");
        compare(JSON.parse(bench.lastBody("alert-serviced")).in_service, false);
        verify(part("serviceState0").text.indexOf("out of service") === 0, part("serviceState0").text);
        tap("service0");
        compare(JSON.parse(bench.lastBody("alert-serviced")).in_service, true);
        tap("serviceBack");
        verify(!isThere("serviceBack"));
    }
    function test_every_page_of_the_site_leads_back() {
        for (const key of ["toTanks", "toCarts", "toStock", "toPeople", "toSettings", "setUp", "toFlush", "toTransfer"]) {
            tap(key);
            verify(!isThere("setUp"), key + " leads elsewhere");
            tap("toShift");
            verify(isThere("setUp"), "from there back again");
        }
    }
    function test_open_runs_stand_as_chips_on_the_shift() {
        verify(!isThere("chip0"), "no run is open");
        setUp();
        tap("toShift");
        verify(isThere("onlyHereRows"));
        tap("chip0");
        compare(bench.app.page, 1, "to the run");
    }
    function test_settings_take_an_alert_out_of_service_while_the_run_is_on_no_screen() {
        tap("toSettings");
        verify(!part("settingsService").enabled, "no run is open");
        tap("settingsLeave");
        setUp();
        tap("toShift");
        tap("toSettings");
        tap("settingsService");
        tap("service0");
        tap("serviceReason0");
        compare(JSON.parse(bench.lastBody("alert-serviced")).in_service, false);
        tap("serviceBack");
        tap("toKeeping");
        verify(isThere("keepingFacts"));
    }
    function test_stock_by_keyboard() {
        chooseStockType();
        tap("stockKind0");
        keyClick("1");
        keyClick("2");
        keyClick(Qt.Key_Backspace);
        compare(part("stockField0Text").text, "1");
        keyClick(Qt.Key_Return);
        compare(bench.lastBody("stock-moved"), '{"type":"P10 glass","elements":1,"why":"received"}');
    }
    function test_stock_by_touch() {
        chooseStockType();
        verify(!part("jobMain").enabled, "nothing is logged before it is said what happened");
        compare(part("jobProblem").kind, "note", "what is still to be told is no caution");
        tap("stockKind1");
        verify(!part("jobMain").enabled, "and how many");
        type("6");
        tap("jobMain");
        compare(bench.lastBody("stock-moved"), '{"type":"P10 glass","elements":6,"why":"counted"}');
        compare(part("moveAmount0").text, "+6");
        compare(part("stockField0Text").text, "");
    }
    function test_the_keys_stand_at_the_left_for_who_wants_them_there() {
        setUp();
        const right = part("keyMain").mapToItem(null, 0, 0).x;
        verify(right > 640, "at the right before");
        tap("toShift");
        tap("toSettings");
        tap("hand1");
        tap("wishesLog");
        tap("settingsLeave");
        tap("work0");
        tryVerify(() => part("keyMain").mapToItem(null, 0, 0).x < 640);
    }
    function test_the_shift_is_where_the_app_starts_and_a_run_is_one_touch_away() {
        verify(isThere("noWork"));
        verify(part("onlyHere").text.indexOf("still only on this tablet") > 0, part("onlyHere").text);
        tap("onlyHere");
        compare(bench.app.page, 18, "how it gets to the hub");
        tap("toShift");
        setUp();
        record("modeFiltering");
        bench.pass(60);
        tap("toShift");
        verify(!part("work0").isLoud);
        bench.pass(400);
        verify(part("work0").isLoud, "an overdue reading is loud");
        tap("work0");
        compare(bench.app.page, 1);
    }

    name: "Shift"
}
