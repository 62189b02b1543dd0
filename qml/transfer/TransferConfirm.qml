// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A second look before oil leaves a tank: the plate, the valve, the container.
JobPanel {
    id: root

    readonly property TransferView transfer: root.app.transfer

    fields: root.transfer.plate
    hasPad: !root.isTall || !root.transfer.points.canGoBack // the plate was read by then: room for the points
    isGrave: true
    mainText: root.transfer.mainText
    problem: root.transfer.problem

    onLeaving: root.transfer.back()
    onPressed: root.transfer.goOn()

    Column {
        spacing: Theme.gap
        width: parent.width

        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.app.label("app.waste.look-again") + " " + root.transfer.source
            width: parent.width
        }
        Row {
            spacing: Theme.gap
            width: parent.width

            FieldList {
                fields: root.transfer.plate
                itemName: "plate"
                unitSpoken: root.app.label("label.unit")
                width: (parent.width - Theme.gap) / 2
            }
            Label {
                height: Math.max(Theme.touchSmall, implicitHeight)
                text: root.app.label("app.waste.or-fluid")
                verticalAlignment: Text.AlignVCenter
                width: (parent.width - Theme.gap) / 2
            }
        }
        ChoiceGrid {
            choices: root.transfer.fluids
            columns: root.width < root.height ? 3 : 4
            itemName: "plateFluid"
            width: parent.width

            onChosen: row => root.transfer.chooseFluid(row)
        }
        CautionLine {
            kind: root.transfer.isWrongTank ? "no-go" : "caution"
            objectName: "wasteWarning"
            text: root.transfer.warning
            visible: root.transfer.warning !== ""
            width: parent.width
        }
        ChoiceGrid {
            choices: root.transfer.valves
            columns: 2
            itemName: "valve"
            width: parent.width

            onChosen: row => root.transfer.chooseValve(row)
        }
        ChecklistPanel {
            app: root.app
            checklist: root.transfer.points
            itemName: "wastePoint"
            width: parent.width
        }
    }
}
