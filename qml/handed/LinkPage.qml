// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// One run or two? Both side by side, or below each other where the window is tall, and what they come to as one.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isTall: root.height > root.width
    readonly property LinkView link: root.app.link

    focus: true

    Header {
        id: header
        app: root.app
        title: root.link.title
        width: root.width
    }
    ScrollArea {
        id: area
        anchors.bottom: keys.top
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        anchors.top: header.bottom
        contentHeight: column.height

        Column {
            id: column
            spacing: Theme.gapLarge
            width: area.room

            NoteList {
                notes: root.link.notes
                objectName: "linkNotes"
                width: parent.width
            }
            Grid {
                columns: root.isTall ? 1 : 2
                spacing: Theme.gapLarge
                width: parent.width

                LinkedRun {
                    rows: root.link.one
                    title: root.link.oneTitle
                    width: root.isTall ? column.width : (column.width - Theme.gapLarge) / 2
                }
                LinkedRun {
                    rows: root.link.other
                    title: root.link.otherTitle
                    width: root.isTall ? column.width : (column.width - Theme.gapLarge) / 2
                }
            }
        }
    }
    StepKeys {
        id: keys
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        keys: root.link.keys
        leaveText: root.app.label("label.back")

        onLeaving: root.app.leaveLink()
        onPressed: say => root.link.press(say)
    }

    component LinkedRun: Column {
        id: one

        property alias rows: facts.rows
        property alias title: name.text

        spacing: Theme.gap

        Label {
            id: name
            font.pixelSize: Theme.textStrong
            isStrong: true
            width: one.width
        }
        Table {
            id: facts
            isStacked: true
            width: one.width
        }
    }
}
