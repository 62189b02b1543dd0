// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

/// The catalogue by touch: records from a file, a new oil, and a tank that leaves service.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function test_a_file_is_previewed_and_its_good_rows_are_taken() {
        bench.writeFile("tanks.csv", "name,volume_l\nWinder gearbox,300\nAlcove pump,60\nOld tank,x\n");
        tap("toTanks");
        tap("tabFile");
        verify(!part("fileTake").enabled, "nothing is taken before a file is chosen");
        tap("file0");
        verify(!part("fileTake").enabled, "and before it is told what is in it");
        tap("fileKind0");
        compare(part("fileRow0").text, "Row 4 · cannot be read · Old tank");
        verify(part("fileText0").text.indexOf("column volume_l") === 0, part("fileText0").text);
        compare(bench.entries("tank-put"), 0, "a preview stores nothing");
        compare(part("fileTake").text, "Take 2 records");
        tap("fileTake");
        compare(bench.entries("tank-put"), 2);
        verify(part("fileNotice").text.indexOf("2 taken") === 0, part("fileNotice").text);
        verify(!part("fileTake").enabled, "and there is nothing more to take");
        tap("tabTanks");
        tap("recordMore");
        tap("record5");
        compare(part("recordName").text, "Alcove pump");
    }
    function test_a_new_oil_by_touch() {
        tap("toTanks");
        tap("tabFluids");
        tap("recordNew");
        part("recordNewName").text = "Turbine 32";
        tap("recordChoice2");
        tap("recordField0");
        type("32");
        tap("recordField1");
        type("105");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("fluid-put")).fluid.grade, "ISO VG 32");
        compare(part("recordName").text, "Turbine 32");
    }
    function test_a_tank_leaves_service_and_comes_back() {
        tap("toTanks");
        tap("record1");
        tap("recordService");
        tap("leaving0");
        compare(JSON.parse(bench.lastBody("record-serviced")).in_service, false);
        compare(part("recordName").text, "Winder gearbox");
        tap("recordService");
        compare(JSON.parse(bench.lastBody("record-serviced")).in_service, true);
    }
    function test_the_keyboard_reaches_every_tab() {
        tap("toTanks");
        for (const tab of ["tabCarts", "tabFluids", "tabElements", "tabFile", "tabTanks"]) {
            part(tab).forceActiveFocus();
            keyClick(Qt.Key_Space);
            verify(part(tab).isMarked, tab);
        }
    }
    function test_what_a_field_holds_is_taken_back() {
        tap("toTanks");
        tap("record0");
        tap("jobMain");
        tap("recordField3");
        tap("recordForget");
        tap("jobMain");
        compare(JSON.parse(bench.lastBody("tank-put")).tank.water, null);
    }

    name: "Catalogue"
}
