// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// A flush under way, batch by batch, or its record when it is closed.
JobPanel {
    id: root

    /// Where the columns begin.
    readonly property real below: caution.visible ? caution.height + Theme.gap : 0
    readonly property real column: (root.room.width - Theme.gapLarge) / 2
    readonly property FlushView flush: root.app.flush
    readonly property bool isOpen: root.flush.phase === FlushView.Flushing

    signal closeWanted

    fields: root.flush.fields
    hasPad: root.isOpen
    isGrave: true
    mainText: root.isOpen ? root.flush.mainText : root.app.label("label.flush-another")
    problem: root.isOpen ? root.flush.problem : ""

    onLeaving: root.app.showShift()
    onPressed: root.isOpen ? root.flush.goOn() : root.flush.planAnother()

    CautionLine {
        id: caution
        isDense: true
        objectName: "flushCaution"
        text: root.flush.caution
        visible: text !== ""
        width: root.room.width
    }
    Column {
        id: done
        spacing: Theme.gap
        width: root.column
        y: root.below

        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.flush.fromTo
            width: parent.width
        }
        NoteLine {
            kind: root.flush.isThinEnough ? "ok" : "note"
            objectName: "flushStanding"
            text: root.flush.standing
            width: parent.width
        }
        Repeater {
            model: root.flush.batches

            delegate: BatchRow {
                required isDone
                required number
                required rest
                required volume

                app: root.app
                width: done.width
            }
        }
    }
    Column {
        id: told
        spacing: Theme.gap
        width: root.column
        x: root.column + Theme.gapLarge
        y: root.below

        FieldList {
            fields: root.flush.fields
            firstRow: 1
            itemName: "batchField"
            unitSpoken: root.app.label("label.unit")
            visible: root.isOpen
            width: parent.width
        }
        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.app.label("label.flush-record")
            visible: !root.isOpen
            width: parent.width
        }
        Table {
            isDense: true
            rows: root.flush.outcome
            width: parent.width
        }
    }
    BigKey {
        height: Theme.lineHeight
        objectName: "flushClose"
        text: root.app.label("label.close-flush")
        textSize: Theme.textStrong
        visible: root.isOpen
        width: root.column
        y: Math.max(done.y + done.height + Theme.gap, root.room.height - height)

        onPressed: root.closeWanted()
    }
}
