// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The pump stands: how much went over, as read; then the record, and the cart is marked.
JobPanel {
    id: root

    readonly property real column: root.isAsked || root.isTall ? root.room.width : (root.room.width - Theme.gapLarge) / 2
    readonly property bool isAsked: root.transfer.phase === TransferView.Measure
    readonly property TransferView transfer: root.app.transfer

    fields: root.transfer.moved
    hasLeave: !root.isAsked
    hasPad: root.isAsked
    isGrave: true
    mainText: root.transfer.mainText
    problem: root.transfer.problem

    onLeaving: root.app.showShift()
    onPressed: root.isAsked ? root.transfer.goOn() : root.app.flushCart()

    Column {
        spacing: Theme.gap
        width: parent.width

        Label {
            font.pixelSize: Theme.textTitle
            isStrong: true
            text: root.app.label(root.isAsked ? "app.waste.how-much" : "label.waste-record")
            width: parent.width
        }
        Row {
            spacing: Theme.gap
            visible: root.isAsked
            width: parent.width

            FieldList {
                fields: root.transfer.moved
                itemName: "moved"
                unitSpoken: root.app.label("label.unit")
                width: parent.width - unread.width - Theme.gap
            }
            BigKey {
                id: unread
                height: Theme.touchSmall
                objectName: "movedUnread"
                text: root.app.label("label.cannot-read")
                width: Theme.padSide

                onPressed: root.transfer.leaveUnread()
            }
        }
        CautionLine {
            objectName: "cartMarked"
            text: root.app.label("app.cart.flush-first")
            visible: !root.isAsked
            width: parent.width
        }
        CautionLine {
            isDense: true
            objectName: "uncoupleCaution"
            text: root.transfer.caution
            visible: root.isAsked
            width: parent.width
        }
        Grid {
            columns: root.isAsked || root.isTall ? 1 : 2
            spacing: Theme.gapLarge
            width: parent.width

            Table {
                rows: root.transfer.outcome
                width: root.column
            }
            Column {
                spacing: Theme.gap
                width: root.column

                WasteLabel {
                    app: root.app
                    width: parent.width
                }
                Repeater {
                    model: root.transfer.labelKeys

                    delegate: BigKey {
                        id: key

                        required property int index
                        required property string say
                        required text

                        height: Theme.touchSmall
                        objectName: "wasteLabels" + key.index
                        width: root.column

                        onPressed: root.transfer.writeLabel(key.say)
                    }
                }
                Label {
                    isStrong: true
                    objectName: "wasteLabelsText"
                    text: root.transfer.labelsText
                    visible: text !== ""
                    width: parent.width
                }
            }
        }
    }
}
