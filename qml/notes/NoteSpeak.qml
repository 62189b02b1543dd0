// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A spoken note: begin, speak, keep.
Column {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textNumber
        isStrong: true
        text: root.notes.spokenText
        width: parent.width
    }
    NoteKeys {
        app: root.app
        keepText: root.app.label(root.notes.isListening ? "app.note.end" : root.notes.isSpokenWaiting ? "app.note.keep" : "app.note.begin")
        otherText: root.notes.isSpokenWaiting ? root.app.label("app.note.begin-again") : ""
        width: parent.width

        onKeep: root.notes.isListening || root.notes.isSpokenWaiting ? root.notes.keepSpoken() : root.notes.beginSpeaking()
        onOther: root.notes.beginSpeaking()
    }
}
