// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A frame that flashes for immediate attention, at 2 Hz; it stands still for who wants that. Nothing else on a screen flashes.
Rectangle {
    id: root

    property bool running: false
    property color shown

    border.color: root.shown
    border.width: Theme.strokeHeavy * 2
    color: "transparent"
    radius: Theme.radius

    SequentialAnimation {
        id: flash
        loops: Animation.Infinite
        running: root.running && !Theme.isStill

        onRunningChanged: {
            if (!flash.running) {
                root.visible = true;
            }
        }

        PauseAnimation {
            duration: Theme.flashMs
        }
        PropertyAction {
            property: "visible"
            target: root
            value: false
        }
        PauseAnimation {
            duration: Theme.flashMs
        }
        PropertyAction {
            property: "visible"
            target: root
            value: true
        }
    }
}
