// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtTest

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

    name: "Scroll"
}
