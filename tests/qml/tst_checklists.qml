// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Checklists with a finger: each point by itself, none in one sweep, left out with a reason only.
Floor {
    function init() {
        bench.begin();
        open();
        tap("setUp");
        tap("tank0");
        tap("nextStep");
        tap("cart0");
        tap("step7");
    }
    function test_a_finger_in_one_place_answers_no_second_point() {
        const key = part("areaPoint0");
        const place = key.mapToItem(everything(), key.width / 2, key.height / 2);
        for (let i = 0; i < 9; ++i) {
            const touch = touchEvent(everything());
            touch.press(0, everything(), place.x, place.y).commit();
            touch.release(0, everything(), place.x, place.y).commit();
            wait(20);
        }
        compare(part("areaPointStanding").text, "1 of 9 answered, 0 left out");
    }
    function test_a_point_is_left_out_with_a_reason_only() {
        tap("areaPoint0Skip");
        verify(isThere("skipReason0"));
        tap("skipBack");
        compare(part("areaPointStanding").text, "0 of 9 answered, 0 left out");
        tap("areaPoint0Skip");
        tap("skipReason0");
        compare(part("areaPointStanding").text, "1 of 9 answered, 1 left out");
        bench.pass(1);
        tap("areaPoint1Not");
        compare(part("areaPointStanding").text, "2 of 9 answered, 1 left out");
    }
    function test_an_area_that_nobody_confirmed_is_not_shown_as_if_it_were() {
        lookAtAll("areaPoint", 2);
        const byFigures = bench.app.setup.verdict.word;
        bench.pass(1);
        tap("areaPoint2Skip");
        tap("skipReason0");
        compare(bench.app.setup.verdict.level, "caution");
        compare(bench.app.setup.verdict.word, "Area not confirmed");
        verify(bench.app.setup.verdict.reason.includes("until the site says so. By the figures: " + byFigures));
        verify(part("areaPoint2Caution").visible, "what nobody looked at is as dangerous as before");
        tap("areaPointBack");
        bench.pass(1);
        tap("areaPoint2");
        compare(bench.app.setup.verdict.word, byFigures);
    }
    function test_a_quick_answer_is_asked_about_and_kept_if_the_person_says_so() {
        tap("areaPoint0");
        tap("areaPoint1");
        verify(isThere("areaPointDoubt"), "nobody looks at two things at once");
        compare(part("areaPointStanding").text, "1 of 9 answered, 0 left out");
        tap("areaPointNotYet");
        compare(part("areaPointStanding").text, "1 of 9 answered, 0 left out");
        tap("areaPoint1");
        tap("areaPointLooked");
        compare(part("areaPointStanding").text, "2 of 9 answered, 0 left out");
        tap("areaPointBack");
        bench.pass(1);
        tap("areaPoint1Not");
        compare(part("areaPointStanding").text, "2 of 9 answered, 0 left out");
    }
    function test_an_answer_is_signed_by_who_gave_it() {
        lookAtAll("areaPoint", 8);
        bench.app.choosePerson(1);
        bench.pass(1);
        tap("areaPoint8");
        bench.app.choosePerson(0);
        tap("step3");
        type("24");
        tap("step4");
        tap("placement0");
        lookAtAll("hosePoint", 3);
        tap("step5");
        tap("target0");
        while (isThere("nextStep")) {
            tap("nextStep");
        }
        tap("startRun");
        compare(bench.entries("check-answered"), 13);
        verify(bench.personOf("check-answered", 8) !== bench.personOf("check-answered", 7));
        compare(bench.personOf("check-answered", 9), bench.personOf("check-answered", 7));
    }
    function test_answers_of_before_a_kill_are_offered_again_and_never_logged() {
        lookAtAll("areaPoint", 2);
        cleanup();
        bench.restart();
        open();
        tap("setUp");
        tap("tank0");
        tap("step7");
        compare(part("areaPointStanding").text, "0 of 9 answered, 0 left out");
        verify(part("areaPointBefore").text.indexOf("Answered before") === 0, part("areaPointBefore").text);
        compare(bench.entries("check-answered"), 0);
        tap("areaPointStill");
        bench.pass(1);
        tap("areaPointStill");
        compare(part("areaPointStanding").text, "2 of 9 answered, 0 left out");
        verify(!isThere("areaPointStill"), "nobody looked at the third point before");
    }
    function test_the_keyboard_goes_from_point_to_point() {
        part("areaPoint0").forceActiveFocus();
        for (let i = 0; i < 9; ++i) {
            tryVerify(() => part("areaPoint" + i).activeFocus);
            bench.pass(1);
            keyClick(Qt.Key_Space);
        }
        compare(part("areaPointStanding").text, "9 of 9 answered, 0 left out");
    }

    name: "Checklists"
}
