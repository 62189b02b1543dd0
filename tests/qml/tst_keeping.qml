// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// What is kept of the record: a backup, the check of all of it, and a restore, with a finger and with a keyboard.
Floor {
    id: root
    function backUp() {
        tap("keepingBackUp");
        finish();
    }
    function finish() {
        tryVerify(() => {
                bench.pass(1);
                return bench.app.keeping.canBackUp && bench.app.keeping.canCheck;
            }, 20000);
    }
    function init() {
        bench.beginOnDisk();
        open();
    }
    /// As the program does: the screens go, then the journal is put together, then they are back.
    function restoreNow() {
        tryVerify(() => bench.isRestoreAsked);
        cleanup();
        bench.restore();
        open();
    }
    function said(list) {
        const lines = part(list).children;
        let text = "";
        for (let i = 0; i < lines.length; ++i) {
            text += lines[i].text !== undefined ? lines[i].text + "\n" : "";
        }
        return text;
    }
    function saysOf(list, text) {
        verify(said(list).indexOf(text) >= 0, list + ": " + said(list));
    }
    function test_a_backup_and_a_check_are_one_touch_each() {
        tap("toSettings");
        tap("toKeeping");
        backUp();
        saysOf("keepingAnswers", "The backup is made and checked");
        tap("keepingCheck");
        finish();
        saysOf("keepingAnswers", "Every hash, link and signature holds");
        tap("toShift");
        verify(isThere("toSettings"));
    }
    function test_a_disk_that_fails_is_told_and_the_record_stays() {
        setUp();
        tap("toShift");
        tap("toSettings");
        tap("toKeeping");
        const before = bench.hashes();
        bench.blockBackups(true);
        backUp();
        saysOf("keepingAnswers", "No backup of the journal could be made");
        tap("troubleSeen");
        tap("keepingRestore");
        tap("restoreRead");
        tap("restoreNow");
        restoreNow();
        verify(part("troubleText").text.indexOf("was not restored and is as it was") > 0, part("troubleText").text);
        compare(bench.hashes(), before);
        compare(bench.compareWithFold(), "");
        bench.blockBackups(false);
    }
    function test_a_restore_by_keyboard_needs_the_points_read() {
        tap("toSettings");
        tap("toKeeping");
        for (let i = 0; i < 30 && !part("keepingRestore").activeFocus; ++i) {
            keyClick(Qt.Key_Tab);
        }
        verify(part("keepingRestore").activeFocus);
        keyClick(Qt.Key_Return);
        verify(isThere("restoreNow"));
        for (let i = 0; i < 30 && !part("restoreRead").activeFocus; ++i) {
            keyClick(Qt.Key_Tab);
        }
        keyClick(Qt.Key_Space);
        verify(bench.app.keeping.isRead);
        for (let i = 0; i < 30 && !part("restoreBack").activeFocus; ++i) {
            keyClick(Qt.Key_Tab);
        }
        keyClick(Qt.Key_Return);
        tryVerify(() => !isThere("restoreNow"));
        verify(!bench.isRestoreAsked);
    }
    function test_a_restore_is_refused_while_a_backup_is_under_way() {
        tap("toSettings");
        tap("toKeeping");
        // In the same breath a finger; where the backup was quicker than the finger, once more.
        for (let i = 0; i < 20 && said("keepingAnswers").indexOf("Not now") < 0; ++i) {
            if (isThere("restoreBack")) {
                tap("restoreBack");
                finish();
            }
            bench.app.keeping.backUp();
            tap("keepingRestore");
        }
        verify(!isThere("restoreNow"));
        saysOf("keepingAnswers", "Not now");
        finish();
        tap("keepingRestore");
        verify(isThere("restoreNow"));
    }
    function test_a_spoilt_page_is_found_and_restored_from_the_backup() {
        setUp();
        record("modeFiltering");
        bench.pass(60);
        tap("toShift");
        tap("toSettings");
        tap("toKeeping");
        backUp();
        cleanup();
        bench.restart(); // brings the log into the file
        open();
        const before = bench.hashes();
        bench.spoilJournal();
        tap("toShift");
        tap("toSettings");
        tap("toKeeping");
        tap("keepingCheck");
        finish();
        saysOf("keepingAnswers", "cannot be read to its end");
        tap("keepingRestore");
        verify(!part("restoreNow").enabled, "one slip does not restore");
        tap("restoreRead");
        tap("restoreNow");
        restoreNow();
        verify(part("troubleText").text.indexOf("put together anew") > 0, part("troubleText").text);
        verify(part("troubleText").text.indexOf("; 0 are known to be missing") > 0, part("troubleText").text);
        tap("troubleSeen");
        compare(bench.hashes().indexOf(before), 0, "every entry is there, in its place");
        compare(bench.compareWithFold(), "");
        tap("toShift");
        tap("toSettings");
        tap("toKeeping");
        saysOf("keepingPast", "restored by a person");
        tap("keepingCheck");
        finish();
        saysOf("keepingAnswers", "Every hash, link and signature holds");
    }

    name: "Keeping"
}
