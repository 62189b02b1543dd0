// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A note in own words, typed on a keyboard.
Column {
    id: root

    required property AppView app

    spacing: Theme.gap

    Component.onCompleted: input.forceActiveFocus()

    Rectangle {
        border.color: input.activeFocus ? Theme.act : Theme.keyLine
        border.width: input.activeFocus ? Theme.strokeHeavy : Theme.stroke
        color: Theme.key
        height: Theme.touch * 2
        radius: Theme.radius
        width: parent.width

        TextEdit {
            id: input
            Accessible.multiLine: true
            Accessible.name: root.app.label("app.note.text-hint")
            Accessible.role: Accessible.EditableText
            activeFocusOnTab: true
            anchors.fill: parent
            anchors.margins: Theme.gap
            clip: true
            color: Theme.ink
            font.family: Theme.family
            font.pixelSize: Theme.textStrong
            objectName: "noteText"
            selectByMouse: true
            wrapMode: TextEdit.Wrap

            Component.onCompleted: input.text = root.app.notes.draft
            Keys.onBacktabPressed: input.nextItemInFocusChain(false).forceActiveFocus()
            Keys.onTabPressed: input.nextItemInFocusChain(true).forceActiveFocus() // a tab in a note helps nobody
            onTextChanged: root.app.notes.draft = input.text
        }
        Label {
            Accessible.ignored: true
            color: Theme.dim
            text: root.app.label("app.note.text-hint")
            visible: input.text === ""
            x: Theme.gap
            y: Theme.gap
        }
    }
    NoteKeys {
        app: root.app
        canKeep: input.text.trim() !== ""
        width: parent.width

        onKeep: root.app.notes.write(input.text)
    }
}
