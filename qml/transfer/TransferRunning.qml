// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The pump moves spent oil: the time that is left until it has to be stopped, large; and the key for when it was.
JobPanel {
    id: root

    readonly property real column: root.isTall ? root.room.width : (root.room.width - Theme.gapLarge) / 2
    readonly property TransferView transfer: root.app.transfer

    fields: root.transfer.moved
    hasPad: false
    mainText: root.transfer.mainText

    onLeaving: root.app.showShift()
    onPressed: root.transfer.goOn()

    // Before the time that is left, and as wide as there is room: both are seen whole where the rest of the page scrolls.
    Column {
        id: warned
        spacing: Theme.gap
        width: root.room.width

        Label {
            font.pixelSize: Theme.textTitle
            isStrong: true
            text: root.transfer.source
            width: parent.width
        }
        CautionLine {
            isDense: !root.isTall && !root.transfer.isOverdue
            kind: root.transfer.isOverdue ? "stop" : "caution"
            objectName: "wasteCaution"
            text: root.transfer.isOverdue ? root.app.label("app.waste.stop-now") : root.transfer.caution
            width: parent.width
        }
    }
    Column {
        id: time
        spacing: root.isTall ? Theme.gap : Theme.gapSmall
        width: root.column
        y: warned.height + Theme.gap

        Label {
            font.pixelSize: Theme.textStrong
            text: root.app.label("app.waste.stop-in")
            visible: !root.transfer.isOverdue
            width: parent.width
        }
        Label {
            font.pixelSize: Theme.signAlarm * (root.isTall ? 0.8 : 0.65)
            isStrong: true
            objectName: "wasteCountdown"
            text: root.transfer.countdown
            wrapMode: Text.NoWrap
        }
        Rectangle {
            border.color: Theme.keyLine
            border.width: Theme.stroke
            color: Theme.shade
            height: Theme.bar * 1.5
            width: parent.width

            Rectangle {
                color: Theme.waste
                height: parent.height - 2 * Theme.stroke
                width: (parent.width - 2 * Theme.stroke) * root.transfer.timeLeft
                x: Theme.stroke
                y: Theme.stroke
            }
        }
    }
    Column {
        spacing: Theme.gapLarge
        width: root.column
        x: root.isTall ? 0 : root.column + Theme.gapLarge
        y: root.isTall ? time.y + time.height + Theme.gapLarge : time.y

        Table {
            rows: root.transfer.outcome
            width: parent.width
        }
        WasteLabel {
            app: root.app
            width: parent.width
        }
    }
    FlashingFrame {
        height: root.height + 2 * Theme.gap
        running: root.transfer.isOverdue
        shown: Theme.danger
        visible: root.transfer.isOverdue
        width: root.width + 2 * Theme.gap
        x: -Theme.gap
        y: -Theme.gap
    }
}
