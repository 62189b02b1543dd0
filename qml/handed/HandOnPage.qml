// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The shown run is handed on: to whom, and how who takes it on reads the valve; what is to be known beside it, or below where
/// the window is tall.
FocusScope {
    id: root

    required property AppView app
    readonly property HandOnView handOn: root.app.handOn
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width

    focus: true

    Header {
        id: header
        app: root.app
        title: root.handOn.title
        width: root.width
    }
    ScrollArea {
        id: area
        anchors.bottom: keys.top
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        anchors.top: header.bottom
        contentHeight: root.isTall ? told.y + told.height : Math.max(asked.height, told.height)

        Column {
            id: asked
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room * 0.5
            x: root.isKeysLeft ? area.room - width : 0

            NoteList {
                notes: root.handOn.notes
                objectName: "handOnNotes"
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textStrong
                isStrong: true
                text: root.handOn.question
                visible: text !== ""
                width: parent.width
            }
            ChoiceGrid {
                choices: root.handOn.valves
                columns: Theme.isLarge ? 1 : 3
                itemName: "valve"
                width: parent.width

                onChosen: row => root.handOn.chooseValve(row)
            }
            ChoiceGrid {
                choices: root.handOn.receivers
                columns: Theme.isLarge ? 1 : 2
                itemName: "receiver"
                width: parent.width

                onChosen: row => root.handOn.chooseReceiver(row)
            }
        }
        Column {
            id: told
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room - asked.width - Theme.gapLarge
            x: root.isTall || root.isKeysLeft ? 0 : asked.width + Theme.gapLarge
            y: root.isTall ? asked.height + Theme.gapLarge : 0

            Table {
                isStacked: true
                objectName: "handOnFacts"
                rows: root.handOn.facts
                width: parent.width
            }
        }
    }
    StepKeys {
        id: keys
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        keys: root.handOn.keys
        leaveText: root.app.label("label.to-the-run")

        onLeaving: root.app.backToRun()
        onPressed: say => root.handOn.press(say)
    }
}
