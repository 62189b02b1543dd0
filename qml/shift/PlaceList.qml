// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// How the tanks and carts of the site stand, those in use first; then what is on this tablet only.
Item {
    id: root

    required property AppView app

    ScrollArea {
        id: area
        anchors.fill: parent
        contentHeight: lists.height

        Column {
            id: lists
            spacing: Theme.gapSmall
            width: area.room

            Label {
                font.pixelSize: Theme.textStrong
                isStrong: true
                text: root.app.label("label.carts")
                width: parent.width
            }
            Table {
                rows: root.app.shift.carts
                width: parent.width
            }
            Item {
                height: Theme.gap
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textStrong
                isStrong: true
                text: root.app.label("label.tanks")
                width: parent.width
            }
            Table {
                rows: root.app.shift.tanks
                width: parent.width
            }
            Item {
                height: Theme.gap
                visible: hereTitle.visible
                width: parent.width
            }
            Label {
                id: hereTitle
                font.pixelSize: Theme.textStrong
                isStrong: true
                text: root.app.label("label.only-here")
                visible: here.height > 0
                width: parent.width
            }
            Table {
                id: here
                objectName: "onlyHereRows"
                rows: root.app.shift.onlyHere
                width: parent.width
            }
        }
    }
}
