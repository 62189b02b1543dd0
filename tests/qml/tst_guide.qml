// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest
import Loopside.Model

/// The guide is read by touch, and left to where somebody came from.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function test_reading_it() {
        tap("toSettings");
        tap("toGuide");
        compare(bench.app.page, AppView.Guide);
        tap("guidePart2");
        compare(part("guideTitle").text, "A reading");
        tap("guideNext");
        compare(part("guideTitle").text, "An alert");
        tap("guideList");
        verify(isThere("guidePart10"));
        verify(!isThere("guideNext"));
        tap("guidePart10");
        compare(part("guideTitle").text, "Words");
        verify(!isThere("guideNext"), "nothing comes behind the last part");
        tap("guideLeave");
        compare(bench.app.page, AppView.Settings);
    }
    function test_what_the_forecast_means() {
        bench.playScene("pump-starved");
        wait(100); // until everything stands where it is touched
        tap("why");
        tap("findingForecast");
        compare(part("guideTitle").text, "What the forecast means");
        tap("guideLeave");
        compare(bench.app.page, AppView.Run);
    }

    name: "Guide"
}
