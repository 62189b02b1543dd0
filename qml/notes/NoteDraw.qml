// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A drawing with a finger, black on white.
Column {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Label {
        text: root.app.label("app.note.draw-hint")
        width: parent.width
    }
    PictureItem {
        id: canvas
        Accessible.name: root.app.label("app.note.draw-hint")
        Accessible.role: Accessible.Canvas
        height: width * root.notes.drawingShape
        image: root.notes.picture
        objectName: "noteCanvas"
        width: Math.min(parent.width, Theme.touch * 5)

        Rectangle {
            anchors.fill: parent
            border.color: Theme.keyLine
            border.width: Theme.stroke
            color: "transparent"
        }
        PointHandler {
            id: finger
            onActiveChanged: {
                if (finger.active) {
                    root.notes.beginStroke(finger.point.position.x / canvas.width, finger.point.position.y / canvas.height);
                } else {
                    root.notes.endStroke();
                }
            }
            onPointChanged: {
                if (finger.active) {
                    root.notes.moveStroke(finger.point.position.x / canvas.width, finger.point.position.y / canvas.height);
                }
            }
        }
    }
    TextLine {
        id: caption
        hint: root.app.label("app.note.caption-hint")
        objectName: "noteCaption"
        width: parent.width

        Component.onCompleted: caption.text = root.notes.caption
        onTextChanged: root.notes.caption = caption.text
    }
    NoteKeys {
        app: root.app
        canKeep: root.notes.canKeep
        otherText: root.app.label("app.note.undo")
        width: parent.width

        onKeep: root.notes.keepPicture(caption.text)
        onOther: root.notes.undoStroke()
    }
}
