// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// From which tank, with which cart, into what: the room in the container and when to stop.
JobPanel {
    id: root

    readonly property real column: (root.room.width - Theme.gapLarge) / 2
    readonly property TransferView transfer: root.app.transfer

    fields: root.transfer.fields
    isGrave: true
    mainText: root.transfer.mainText
    problem: root.transfer.problem

    onLeaving: root.app.showShift()
    onPressed: root.transfer.goOn()

    Column {
        spacing: Theme.gap
        width: root.column

        Label {
            isStrong: true
            text: root.app.label("app.waste.which-tank")
            width: parent.width
        }
        ChoiceList {
            choices: root.transfer.tanks
            itemName: "wasteTank"
            moreText: root.app.label("label.more")
            places: 6
            width: parent.width

            onChosen: row => root.transfer.chooseTank(row)
        }
    }
    Column {
        spacing: Theme.gap
        width: root.column
        x: root.column + Theme.gapLarge

        ChoiceGrid {
            choices: root.transfer.carts
            columns: root.isTall ? 1 : 2
            itemName: "wasteCart"
            width: parent.width

            onChosen: row => root.transfer.chooseCart(row)
        }
        FieldList {
            fields: root.transfer.fields
            itemName: "wasteField"
            unitSpoken: root.app.label("label.unit")
            width: parent.width
        }
        Table {
            isDense: true
            rows: root.transfer.outcome
            width: parent.width
        }
    }
}
