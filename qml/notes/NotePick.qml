// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
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
        visible: list.count === 0
        width: parent.width
    }
    ListView {
        id: list
        clip: true
        height: Math.min(count, 5) * (Theme.touchSmall + Theme.gap)
        model: root.notes.files
        spacing: Theme.gap
        width: parent.width

        delegate: BigKey {
            id: file

            required detail
            required property int index
            required property string name

            align: Text.AlignLeft
            height: Theme.touchSmall
            isOneLine: true
            objectName: "notePick" + file.index
            text: file.name
            width: list.width

            onPressed: root.notes.chooseFile(file.index)
        }
    }
    Row {
        spacing: Theme.gap
        width: parent.width

        BigKey {
            height: Theme.touchSmall
            objectName: "noteBack"
            text: root.app.label("label.back")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.notes.go(NotesView.List)
        }
        BigKey {
            height: Theme.touchSmall
            objectName: "noteUp"
            text: root.app.label("app.note.up")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.notes.upFolder()
        }
    }
}
