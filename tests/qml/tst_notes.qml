// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// Notes and pictures with a finger: write, draw, a picture from a file, withdraw it; what was seen or heard.
Floor {
    function attached() {
        return JSON.parse(bench.lastBody("attachment-added"));
    }
    function draw(places) {
        const canvas = part("noteCanvas");
        const touch = touchEvent(canvas);
        touch.press(0, canvas, places[0], places[0]).commit();
        for (const place of places) {
            touch.move(0, canvas, place, place).commit();
            wait(5);
        }
        touch.release(0, canvas, places[places.length - 1], places[places.length - 1]).commit();
    }
    function init() {
        bench.begin();
        open();
        setUp();
        record("modeFiltering");
        tap("note");
    }
    function test_a_drawing_is_kept_as_a_picture() {
        tap("noteDraw");
        verify(!part("noteKeep").enabled, "there is nothing to keep yet");
        draw([40, 80, 120]);
        verify(part("noteKeep").enabled);
        tap("noteOther");
        verify(!part("noteKeep").enabled, "the stroke was taken back");
        draw([40, 80, 120]);
        tap("noteKeep");
        compare(attached().kind, "drawing");
        compare(attached().media_type, "image/png");
        compare(bench.attachmentFiles(), 1);
    }
    function test_a_note_is_written() {
        tap("noteWrite");
        verify(!part("noteKeep").enabled);
        part("noteText").text = "Needle of G2 is bent";
        tap("noteKeep");
        compare(bench.lastBody("noted"), '{"note":"Needle of G2 is bent"}');
        verify(part("noteRow0").text.indexOf("Needle of G2 is bent") >= 0);
        tap("noteClose");
        verify(!isThere("noteWrite"));
    }
    function test_a_note_is_written_with_the_keyboard_alone() {
        part("noteWrite").forceActiveFocus();
        keyClick(Qt.Key_Space);
        tryVerify(() => part("noteText").activeFocus);
        for (const sign of "drips") {
            keyClick(sign);
        }
        while (!part("noteKeep").activeFocus) {
            keyClick(Qt.Key_Tab);
        }
        keyClick(Qt.Key_Space);
        compare(bench.lastBody("noted"), '{"note":"drips"}');
    }
    function test_a_note_to_an_entry_is_marked_and_opened_from_what_was_logged() {
        tap("noteClose");
        tap("toLogged");
        tap("loggedEntry0");
        tap("loggedNotes");
        tap("noteWrite");
        part("noteText").text = "pump was warm";
        tap("noteKeep");
        tap("noteClose");
        verify(bench.app.logged.entries.rowCount() >= 2);
        tap("loggedEntry0");
        tap("loggedNotes");
        verify(part("noteShown").text.indexOf("pump was warm") > 0, part("noteShown").text);
    }
    function test_a_picture_file_is_attached_and_withdrawn() {
        bench.putPicture("dial.jpg");
        tap("noteFile");
        tap("notePick0");
        verify(part("notePictureText").text.indexOf("of at most 300\u00a0kB") > 0, part("notePictureText").text);
        tap("noteKeep");
        compare(attached().kind, "photo");
        verify(attached().bytes <= 300000 && attached().bytes > 1000);
        compare(bench.attachmentFiles(), 1);
        tap("noteRow0");
        verify(part("noteShown").text.indexOf("Picture") === 0);
        tap("noteKeep");
        tap("withdrawReason0");
        compare(JSON.parse(bench.lastBody("attachment-withdrawn")).why, "A person is on it");
        compare(bench.attachmentFiles(), 0, "the picture is gone");
        verify(part("noteRow0").text.indexOf("withdrawn: A person is on it") > 0, part("noteRow0").text);
        tap("noteRow0");
        verify(!part("noteKeep").enabled, "it is not withdrawn twice");
        compare(bench.compareWithFold(), "");
    }
    function test_a_key_that_cannot_work_says_why() {
        const missing = isThere("noteMissing") ? part("noteMissing").text : "";
        compare(part("noteSpeak").enabled, missing.indexOf("no microphone") < 0);
        compare(part("notePhoto").enabled, missing.indexOf("no camera") < 0);
    }
    function test_what_was_heard_is_told_and_cautioned_of() {
        verify(!isThere("runCaution"));
        verify(!part("noteLog").enabled, "nothing is ticked before somebody does");
        tap("noteSign1");
        tap("noteLog");
        compare(bench.lastBody("signs-seen"), '{"seen":["clicking"]}');
        verify(!isThere("noteLog"));
        keyClick("1");
        compare(part("field0Text").text, "1", "the keyboard is the pad's again");
        verify(part("runCaution").text.indexOf("Lower the flow") === 0);
        record("modeStopped");
        verify(!isThere("runCaution"));
    }

    name: "Notes"
}
