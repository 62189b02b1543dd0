// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What is known of a tank or cart, and what became of it.
Column {
    id: root

    required property AppView app
    property int places: 4
    required property RecordView record

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textTitle
        isStrong: true
        objectName: "recordName"
        text: root.record.name
        width: parent.width
    }
    Label {
        objectName: "recordNotice"
        text: root.record.notice
        visible: text !== ""
        width: parent.width
    }
    Row {
        spacing: Theme.gapLarge
        width: parent.width

        Table {
            isDense: true
            rows: root.record.facts
            width: (parent.width - parent.spacing) / 2
        }
        Column {
            spacing: Theme.gap
            width: (parent.width - parent.spacing) / 2

            Table {
                isStacked: true
                rows: root.record.past
                visible: root.record.hasPast
                width: parent.width
            }
            Label {
                isStrong: true
                text: root.app.label("label.history")
                width: parent.width
            }
            MoveList {
                moreText: root.app.label("label.earlier")
                moves: root.record.history
                places: root.places
                width: parent.width

                onOpened: run => root.app.showRunOf(run)
            }
        }
    }
    PastCharts {
        record: root.record
        visible: root.record.hasPast
        width: parent.width
    }
}
