// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest
import Loopside.Ui

/// What is higher than its room: scrolled by keys, and another thing begins at its top.
Floor {
    function init() {
        bench.begin();
        open();
    }
    function test_another_thing_is_shown_from_its_top() {
        const component = Qt.createComponent("qrc:/qt/qml/Loopside/Ui/ScrollArea.qml");
        const area = component.createObject(everything(), {
                "contentHeight": 900,
                "height": 300,
                "shows": "one",
                "width": 400,
                "z": 99
            });
        const down = findChild(area, "scrollDown");
        const up = findChild(area, "scrollUp");
        tryVerify(() => down.visible && !up.enabled);
        mouseClick(down);
        tryVerify(() => up.enabled);
        area.shows = "another";
        tryVerify(() => !up.enabled, 1000, "at its top");
        area.contentHeight = 200;
        tryVerify(() => !down.visible, 1000, "no keys where all is in sight");
        area.destroy();
    }
    function test_nothing_is_painted_outside_its_room() {
        const page = Qt.createQmlObject(`
            import QtQuick
            import Loopside.Ui
            Rectangle {
                id: page
                color: Theme.act
                height: 700
                width: 800
                z: 99
                ScrollArea {
                    contentHeight: 1400
                    height: 200
                    width: 400
                    Repeater {
                        model: [-60, 220, 330, 480, 800, 1300] // of those that lie outside, some lie on the page
                        delegate: Item {
                            id: row
                            required property int modelData
                            y: row.modelData
                            Sign { kind: "stop"; size: 60 }
                            Ring { fraction: 0.7; height: 60; width: 60; x: 70 }
                            Hatch { height: 60; width: 60; x: 140 }
                            BandPattern {
                                color: Theme.panel
                                height: 60
                                ink: Theme.ink
                                kind: "practice"
                                width: 60
                                x: 210
                            }
                        }
                    }
                }
            }`, everything());
        tryVerify(() => findChild(page, "scrollDown").visible);
        wait(100); // what is painted now is clipped
        const picture = grabImage(page);
        for (let y = 210; y < page.height; y += 3) {
            for (let x = 3; x < page.width; x += 7) {
                if (!Qt.colorEqual(picture.pixel(x, y), page.color)) {
                    fail(`painted at ${x}, ${y}`);
                }
            }
        }
        page.destroy();
    }
    function test_what_gets_the_keyboard_is_in_sight_at_once() {
        const area = Qt.createQmlObject(`
            import QtQuick
            import Loopside.Ui
            ScrollArea {
                id: area
                property alias key: key
                property alias before: before
                contentHeight: rows.height
                height: 300
                width: 400
                z: 99
                Column {
                    id: rows
                    width: area.room
                    Item { id: before; height: 100; width: 100 }
                    Item { id: key; activeFocusOnTab: true; height: 80; width: 100 }
                    Item { height: 400; width: 100 }
                }
            }`, everything());
        tryVerify(() => findChild(area, "scrollDown").visible);
        wait(100); // every row has its place
        area.before.height = 500; // the next frame moves the rows
        area.key.forceActiveFocus();
        area.reveal();
        const place = area.key.mapToItem(area, 0, 500 - area.key.y); // where that frame puts it
        verify(place.y >= 0 && place.y + area.key.height <= area.height, `at ${place.y} of ${area.height}`);
        area.destroy();
    }

    name: "Scroll"
}
