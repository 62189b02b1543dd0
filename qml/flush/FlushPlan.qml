// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Which cart, with which oil, how much stays inside and goes through, how thin it has to be, who approves.
JobPanel {
    id: root

    /// Where the columns begin.
    readonly property real below: caution.visible ? caution.height + Theme.gap : 0
    readonly property real column: (root.room.width - Theme.gapLarge) / 2
    readonly property FlushView flush: root.app.flush

    fields: root.flush.fields
    isGrave: true
    mainText: root.flush.mainText
    problem: root.flush.problem

    onLeaving: root.app.showShift()
    onPressed: root.flush.goOn()

    CautionLine {
        id: caution
        isDense: true
        objectName: "flushCaution"
        text: root.flush.caution
        visible: text !== ""
        width: root.room.width
    }
    Column {
        spacing: Theme.gap
        width: root.column
        y: root.below

        Caption {
            text: root.app.label("app.flush.cart")
        }
        ChoiceList {
            choices: root.flush.carts
            itemName: "flushCart"
            moreText: root.app.label("label.more")
            places: 2
            width: parent.width

            onChosen: row => root.flush.chooseCart(row)
        }
        Caption {
            text: root.app.label("app.flush.to")
        }
        ChoiceList {
            choices: root.flush.fluids
            itemName: "flushFluid"
            moreText: root.app.label("label.more")
            places: 4
            width: parent.width

            onChosen: row => root.flush.chooseFluid(row)
        }
    }
    Column {
        spacing: Theme.gap
        width: root.column
        x: root.column + Theme.gapLarge
        y: root.below

        FieldList {
            fields: root.flush.fields
            itemName: "flushField"
            unitSpoken: root.app.label("label.unit")
            width: parent.width
        }
        Caption {
            text: root.app.label("app.flush.wanted")
        }
        ChoiceGrid {
            choices: root.flush.wanted
            columns: 3
            itemName: "flushWanted"
            width: parent.width

            onChosen: row => root.flush.chooseWanted(row)
        }
        Caption {
            text: root.app.label("app.flush.approver")
        }
        ChoiceGrid {
            choices: root.flush.approvers
            columns: 3
            itemName: "flushApprover"
            width: parent.width

            onChosen: row => root.flush.chooseApprover(row)
        }
        Table {
            isDense: true
            rows: root.flush.outcome
            width: parent.width
        }
    }

    component Caption: Label {
        isStrong: true
        width: parent.width
    }
}
