// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// One attachment, large or to be heard; from here it is withdrawn.
Column {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Label {
        isStrong: true
        objectName: "noteShown"
        text: root.notes.shownText
        width: parent.width
    }
    PictureItem {
        Accessible.name: root.notes.shownText
        Accessible.role: Accessible.Graphic
        height: Theme.touch * 3.4
        image: root.notes.picture
        visible: root.notes.shownHasPicture
        width: parent.width
    }
    NoteKeys {
        app: root.app
        canKeep: root.notes.shownCanBeWithdrawn
        isKeepMain: false
        keepText: root.app.label("app.note.withdraw")
        otherText: root.notes.shownCanPlay ? root.app.label("app.note.play") : ""
        width: parent.width

        onKeep: root.notes.go(NotesView.Withdraw)
        onOther: root.notes.play()
    }
}
