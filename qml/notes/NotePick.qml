// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A folder with its pictures, the youngest first; a touch on a folder goes into it.
Column {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Label {
        elide: Text.ElideLeft
        isStrong: true
        text: root.notes.folderText
        width: parent.width
        wrapMode: Text.NoWrap
    }
    Label {
        text: root.app.label("app.note.empty-folder")
        visible: root.notes.isFolderEmpty
        width: parent.width
    }
    ChoiceList {
        id: list
        choices: root.notes.files
        itemName: "notePick"
        moreText: root.app.label("label.more")
        places: 5
        width: parent.width

        onChosen: row => root.notes.chooseFile(row)
    }
    Row {
        spacing: Theme.gap
        width: parent.width

        BigKey {
            height: Theme.touch
            objectName: "noteBack"
            text: root.app.label("label.back")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.notes.go(NotesView.List)
        }
        BigKey {
            height: Theme.touch
            objectName: "noteUp"
            text: root.app.label("app.note.up")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.notes.upFolder()
        }
    }
}
