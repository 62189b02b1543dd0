// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// What the gauges say, with a finger: the reasons one touch away, and stop-now over every page.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function play(scene) {
        bench.playScene(scene);
        wait(100); // until everything stands where it is touched
    }
    function test_a_forecast_of_another_day_is_never_cut() {
        const component = Qt.createComponent("qrc:/qt/qml/Loopside/Ui/StageColumn.qml");
        for (const width of [222, 371]) {
            // three stages, two stages
            const column = component.createObject(everything(), {
                    "aheadHigh": 0.9,
                    "aheadLow": 0.5,
                    "bypassAt": -1,
                    "bypassText": "",
                    "correctedText": "corrected 18 kPa",
                    "dropText": "130 kPa",
                    "errorText": "± 4 kPa",
                    "fill": 0.4,
                    "forecastState": "early",
                    "forecastText": "unsure ~02:10\u00A0+1\u00A0d (01:00\u00A0+1\u00A0d–06:30\u00A0+1\u00A0d)",
                    "height": 132,
                    "isDense": width < 300,
                    "level": "ok",
                    "levelText": "below limit",
                    "limitText": "170 kPa",
                    "loadingText": "loading 1.7×",
                    "mark": -1,
                    "number": "1",
                    "spoken": "",
                    "title": "Stage 1",
                    "width": width
                });
            const label = findChild(column, "forecast1");
            tryVerify(() => label.height > 0);
            verify(!label.truncated && label.contentWidth <= label.width, "at " + width);
            verify(label.y + label.height <= 141, "above the filter, which begins at 141: " + (label.y + label.height));
            column.destroy();
        }
    }
    function test_the_trend_is_shown_large_by_a_touch_where_it_has_no_room_as_well() {
        play("aerated");
        verify(!isThere("trendLarge"));
        tap("trend");
        tryVerify(() => isThere("trendLarge"));
        verify(part("trendLarge").height > everything().height / 3, "large enough to be read");
        tap("trendBack");
        tryVerify(() => !isThere("trendLarge"));
    }
    function test_in_cold_oil_the_bypass_is_recorded_from_the_reasons() {
        play("cold-oil");
        tap("alertKeep");
        tap("reason0");
        wait(100);
        tap("why");
        while (!isThere("findingBypass0") && !isThere("findingBypass1") && !isThere("findingBypass2")) {
            tap("findingNext");
        }
        tap(isThere("findingBypass0") ? "findingBypass0" : isThere("findingBypass1") ? "findingBypass1" : "findingBypass2");
        tap("hintConfirm");
        compare(bench.lastBody("mode-changed"), '{"mode":"bypassing"}');
        compare(bench.app.run.mode, "bypassing");
    }
    function test_in_cold_oil_the_bypass_is_recorded_on_the_alert() {
        play("cold-oil");
        tap("alertBypass");
        compare(bench.lastBody("mode-changed"), '{"mode":"bypassing"}');
        verify(!bench.app.alert.isUp);
    }
    function test_somebody_looked_and_it_is_so() {
        play("valve-in-bypass");
        tap("answer0"); // it was asked whether the jump is what the gauges show
        wait(100);
        tap("why");
        tap("findingSo0");
        compare(JSON.parse(bench.lastBody("question-answered")).question, "valve-in-bypass");
        compare(JSON.parse(bench.lastBody("question-answered")).say, "yes");
        verify(!part("findingSo0").enabled, "it is said once");
    }
    function test_stop_now_covers_any_page_until_somebody_stopped_the_pump() {
        play("dead-headed");
        tap("alertSilence");
        verify(!bench.app.alert.isUp);
        tap("toShift");
        bench.pass(130);
        verify(bench.app.alert.isUp, "it comes back when the silence is over, also over the shift");
        compare(bench.app.alert.level, "stop");
        tap("alertStopped");
        verify(!bench.app.alert.isUp);
        compare(bench.lastBody("mode-changed"), '{"mode":"stopped"}');
        compare(bench.app.page, 1, "the run that it was about is shown");
    }
    function test_reasons_after_a_stop_say_the_stop() {
        play("dead-headed");
        tap("alertStopped");
        compare(part("findingNone").text, bench.app.run.lineText);
        verify(part("findingNone").text !== bench.app.label("app.nothing-stands"), "until the gauges are read again");
    }
    function test_stop_now_is_run_on_with_a_reason() {
        play("torn");
        tap("alertKeep");
        tap("reasonBack");
        verify(bench.app.alert.isUp);
        tap("alertKeep");
        tap("reason1");
        verify(!bench.app.alert.isUp);
        compare(bench.app.run.lineLevel, "stop", "what was found stays on the line");
    }
    function test_the_reasons_are_one_touch_away() {
        play("pump-starved");
        tap("why");
        tryVerify(() => part("findingText0").visible);
        compare(part("findingText0").text, bench.app.run.lineText);
        tap("findingNext");
        tryVerify(() => part("findingText1").visible);
        verify(!part("findingText0").visible, "one at a time");
        tap("findingBack");
        verify(!isThere("findingBack"));
        keyClick("1");
        compare(part("field0Text").text, "1", "the keyboard is the pad's again");
    }
    function test_what_became_of_an_alert_is_told() {
        play("torn");
        tap("alertStopped");
        wait(100);
        tap("why");
        tap("alertLog");
        tryVerify(() => part("alertBecame0").visible);
        verify(part("alertBecame0").text.indexOf("by Ines") > 0, part("alertBecame0").text);
        tap("logBack");
        verify(!isThere("logBack"));
    }

    name: "Findings"
}
