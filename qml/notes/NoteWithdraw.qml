// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Why an attachment is withdrawn: a reason to choose, or own words.
Column {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Label {
        isStrong: true
        text: root.app.label("app.note.why")
        width: parent.width
    }
    CautionLine {
        text: root.app.label("app.note.withdraw-note")
        width: parent.width
    }
    Repeater {
        model: root.notes.reasons

        delegate: BigKey {
            id: reason

            required property int index
            required text

            height: Theme.touchSmall
            objectName: "withdrawReason" + reason.index
            width: root.width

            onPressed: root.notes.withdraw(reason.index)
        }
    }
    TextLine {
        id: own
        hint: root.app.label("app.check.own-words")
        kept: root.notes.ownWords
        objectName: "withdrawWords"
        width: parent.width
    }
    NoteKeys {
        app: root.app
        canKeep: own.text.trim() !== ""
        keepText: root.app.label("app.note.withdraw-it")
        width: parent.width

        onKeep: root.notes.withdrawFor(own.text)
    }
}
