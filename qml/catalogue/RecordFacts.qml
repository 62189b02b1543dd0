// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What is known of a tank or cart, and what became of it.
Column {
    id: root

    required property AppView app
    readonly property bool hasPast: root.record.hasPast
    required property bool isTall
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
    Grid {
        id: tables
        columns: root.hasPast && !root.isTall ? 2 : 1
        spacing: Theme.gapLarge
        width: parent.width

        Table {
            id: facts
            isDense: true
            rows: root.record.facts
            width: (tables.width - (tables.columns - 1) * tables.spacing) / tables.columns
        }
        Table {
            id: past
            isStacked: true
            rows: root.record.past
            visible: root.hasPast
            width: facts.width
        }
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
    }
}
