// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Where the hoses stand in the tank, how the level moves, what was looked at.
Column {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    spacing: Theme.gap

    Row {
        spacing: Theme.gap

        Repeater {
            model: root.setup.placements

            delegate: PlacementKey {
                id: placement

                required detail
                required property int index

                isDetailShown: false
                objectName: "placement" + placement.index
                row: placement.index
                width: (root.width - 2 * Theme.gap) / 3

                onPressed: root.setup.choosePlacement(placement.index)
            }
        }
    }
    NoteList {
        notes: root.setup.notes
        width: parent.width
    }
    CautionLine {
        isDense: true
        text: root.setup.hoseCaution
        width: parent.width
    }
    ChecklistPanel {
        app: root.app
        checklist: root.setup.hosePoints
        itemName: "hosePoint"
        width: parent.width
    }
}
