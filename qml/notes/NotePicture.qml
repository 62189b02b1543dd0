// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What the camera sees, or the picture that is to be attached.
Column {
    id: root

    required property AppView app
    property bool hasCaption: false
    required property string keepText
    readonly property NotesView notes: root.app.notes

    signal keep(string caption)

    spacing: Theme.gap

    PictureItem {
        Accessible.name: root.notes.pictureText === "" ? root.app.label("app.note.photo") : root.notes.pictureText
        Accessible.role: Accessible.Graphic
        height: Theme.touch * 3
        image: root.notes.picture
        visible: root.notes.canKeep
        width: parent.width
    }
    Label {
        objectName: "notePictureText"
        text: root.notes.pictureText
        visible: text !== ""
        width: parent.width
    }
    TextLine {
        id: caption
        hint: root.app.label("app.note.caption-hint")
        objectName: "noteCaption"
        visible: root.hasCaption
        width: parent.width

        Component.onCompleted: caption.text = root.notes.caption
        onTextChanged: root.notes.caption = caption.text
    }
    NoteKeys {
        app: root.app
        canKeep: root.notes.canKeep
        keepText: root.keepText
        width: parent.width

        onKeep: root.keep(caption.text)
    }
}
