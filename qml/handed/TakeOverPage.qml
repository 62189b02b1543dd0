// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A run of another tablet is taken over: its code, what was found, how the valve is read; what is to be known beside it, or
/// below where the window is tall.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property TakeOverView takeOver: root.app.takeOver

    focus: true

    Keys.onPressed: event => {
        if (root.takeOver.hasRun) {
            return;
        }
        if (event.key === Qt.Key_Backspace) {
            root.takeOver.backspace();
            event.accepted = true;
        } else if (event.text.length === 1 && event.text > " ") {
            root.takeOver.type(event.text);
            event.accepted = true;
        }
    }

    Header {
        id: header
        app: root.app
        title: root.app.label("label.take-over")
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

            Label {
                color: Theme.dim
                text: root.app.label("label.code-typed")
                visible: !root.takeOver.isOffered
                width: parent.width
            }
            Panel {
                Accessible.name: root.app.label("label.code-typed") + ": " + root.takeOver.code
                Accessible.role: Accessible.StaticText
                border.color: Theme.act
                height: Theme.touchSmall
                visible: !root.takeOver.isOffered
                width: parent.width

                Label {
                    Accessible.ignored: true
                    anchors.left: parent.left
                    anchors.leftMargin: Theme.gap
                    anchors.verticalCenter: parent.verticalCenter
                    font.letterSpacing: Theme.gapSmall
                    font.pixelSize: Theme.textNumber
                    isStrong: true
                    objectName: "codeTyped"
                    text: root.takeOver.code
                }
            }
            CodeKeys {
                backSpoken: root.app.label("label.key-back")
                visible: !root.takeOver.hasRun && !root.takeOver.isOffered
                width: parent.width

                onDeleted: root.takeOver.backspace()
                onTyped: sign => root.takeOver.type(sign)
            }
            ChoiceGrid {
                choices: root.takeOver.found
                columns: 1
                itemName: "foundRun"
                width: parent.width

                onChosen: row => root.takeOver.chooseRun(row)
            }
            NoteList {
                notes: root.takeOver.notes
                visible: root.takeOver.hasRun
                width: parent.width
            }
            ChoiceGrid {
                choices: root.takeOver.valves
                columns: Theme.isLarge ? 1 : 3
                itemName: "valve"
                width: parent.width

                onChosen: row => root.takeOver.chooseValve(row)
            }
        }
        Column {
            id: told
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room - asked.width - Theme.gapLarge
            x: root.isTall || root.isKeysLeft ? 0 : asked.width + Theme.gapLarge
            y: root.isTall ? asked.height + Theme.gapLarge : 0

            NoteList {
                notes: root.takeOver.notes
                objectName: "takeOverNotes"
                visible: !root.takeOver.hasRun
                width: parent.width
            }
            Table {
                isStacked: true
                objectName: "takeOverFacts"
                rows: root.takeOver.facts
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
        keys: root.takeOver.keys
        leaveText: root.app.label("label.back")

        onLeaving: root.app.showShift()
        onPressed: say => root.takeOver.press(say)
    }
}
