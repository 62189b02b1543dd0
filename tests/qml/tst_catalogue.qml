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
    /// What the keyboard comes to is brought into sight, whichever way.
    function reach(name) {
        part(name).forceActiveFocus();
        wait(20);
        tap(name);
    }
    function test_a_cart_with_one_stage_by_touch() {
        tap("toTanks");
        tap("tabCarts");
        tap("recordNew");
        part("recordNewName").text = "Cart T";
        reach("recordField0");
        type("20");
        reach("recordChoice0");
        verify(!isThere("recordGroup5"), "with one stage there are five groups");
        reach("recordGroup1");
        reach("recordChoice0");
        reach("recordGroup2");
        reach("recordField17");
        type("100");
        reach("recordField20");
        type("100");
        tap("jobMain");
        const cart = JSON.parse(bench.lastBody("cart-put"));
        compare(cart.stages.length, 1);
        compare(cart.cart.gauges.length, 2);
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
    function test_a_new_type_with_its_clean_pressure_by_touch() {
        tap("toTanks");
        tap("tabElements");
        tap("recordNew");
        part("recordNewName").text = "P6 glass";
        reach("recordChoice0");
        reach("recordGroup1");
        for (const [field, number] of [[6, "170"], [8, "20"], [10, "24"], [11, "46"]]) {
            reach("recordField" + field);
            type(number);
        }
        tap("jobMain");
        const stage = JSON.parse(bench.lastBody("element-type-put")).stage;
        compare(stage.clean_dp, "20 kPa");
        compare(stage.clean_at.flow, "24 L/min");
        compare(stage.clean_at.viscosity, "46 cSt");
    }
    function test_a_person_is_added_and_offered_no_more() {
        tap("toPeople");
        tap("personNew");
        verify(!part("wishesLog").enabled, "no name is typed");
        part("personName").text = "Oksana";
        tap("wishesLog");
        verify(bench.siteText().indexOf("Oksana") > 0);
        compare(bench.app.people.rowCount(), 4);
        tap("personService");
        compare(bench.app.people.rowCount(), 3);
        verify(bench.siteText().indexOf("out_of_service") > 0);
        compare(bench.entries("person-put"), 0);
        tap("personRename");
        part("personName").text = "O.";
        tap("wishesLog");
        verify(bench.siteText().indexOf("Oksana") < 0, "the old name is nowhere");
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
    function test_element_types_carts_oils_and_jobs_from_files() {
        const files = [["elements.csv", "type,kind,clean_dp_kpa,clean_at_flow_lpm,clean_at_viscosity_cst\nP6 glass,particle,20,24,46\n", 2, "element-type-put"], ["carts.csv", "name,flow_lpm,gauge_unit,stage1_type\nCart T,20,kPa,P6 glass\n", 3, "cart-put"], ["oils.csv", "name,kind,grade,vi\nTurbine 46,turbine,ISO VG 46,105\n", 1, "fluid-put"], ["jobs.csv", "order,tank,cart\nWO-1,Winder gearbox,Cart T\n", 4, "job-put"]];
        tap("toTanks");
        for (const [name, text, kind, entry] of files) {
            bench.writeStick("one.csv", text);
            tap("tabTanks");
            tap("tabFile");
            tap("file0");
            tap("fileKind" + kind);
            verify(part("fileRow0").text.indexOf("Row 2 · new") === 0, name + ": " + part("fileRow0").text);
            tap("fileTake");
            compare(bench.entries(entry), 1, name);
            bench.pullStick();
        }
        compare(JSON.parse(bench.lastBody("cart-put")).stages[0].clean_at.viscosity, "46 cSt");
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
