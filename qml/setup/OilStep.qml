// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// How warm the oil is where the suction stands, and water if the laboratory told it.
Item {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    implicitHeight: Theme.isLarge ? keys.y + keys.height : Math.max(told.height, keys.height)

    Column {
        id: told
        spacing: Theme.gap
        width: Theme.isLarge ? root.width : root.width - keys.width - Theme.gap
        x: Theme.isLeftHanded && !Theme.isLarge ? keys.width + Theme.gap : 0

        FieldList {
            fields: root.setup.oil
            itemName: "oil"
            unitSpoken: root.app.label("label.unit")
            width: parent.width
        }
        Label {
            color: Theme.dim
            text: root.app.label("app.setup.where-measured")
            width: parent.width
        }
        Table {
            isStacked: true
            rows: root.setup.facts
            width: parent.width
        }
        NoteList {
            notes: root.setup.notes
            width: parent.width
        }
    }
    FieldKeys {
        id: keys
        backSpoken: root.app.label("label.key-back")
        fields: root.setup.oil
        pointSpoken: root.app.label("label.key-point")
        x: Theme.isLarge || Theme.isLeftHanded ? 0 : root.width - keys.width
        y: Theme.isLarge ? told.height + Theme.gap : 0
    }
}
