// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// How the tanks and carts of the site stand, those in use first.
Item {
    id: root

    required property AppView app

    clip: true

    Column {
        spacing: Theme.gapSmall
        width: parent.width

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
    }
}
