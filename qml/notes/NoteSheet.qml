// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Notes and pictures of the run or of one of its entries, over the page: `app.notes.open(entry)` opens it, with the id
/// of an entry or with nothing for the run.
Sheet {
    id: root

    required property AppView app
    readonly property NotesView notes: root.app.notes

    room: Theme.sheet * 1.6
    text: root.notes.aboutText
    title: root.notes.title
    visible: root.notes.isOpen

    Loader {
        active: root.notes.isOpen // what it shows begins anew each time
        sourceComponent: [list, write, draw, speak, look, pick, preview, show, withdraw][root.notes.mode]
        width: parent.width
    }
    Component {
        id: list
        NoteOverview {
            app: root.app
        }
    }
    Component {
        id: write
        NoteWrite {
            app: root.app
        }
    }
    Component {
        id: draw
        NoteDraw {
            app: root.app
        }
    }
    Component {
        id: speak
        NoteSpeak {
            app: root.app
        }
    }
    Component {
        id: look
        NotePicture {
            app: root.app
            keepText: root.app.label("app.note.take")

            onKeep: root.notes.take()
        }
    }
    Component {
        id: pick
        NotePick {
            app: root.app
        }
    }
    Component {
        id: preview
        NotePicture {
            app: root.app
            hasCaption: true
            keepText: root.app.label("app.note.attach")

            onKeep: caption => root.notes.keepPicture(caption)
        }
    }
    Component {
        id: show
        NoteShow {
            app: root.app
        }
    }
    Component {
        id: withdraw
        NoteWithdraw {
            app: root.app
        }
    }
}
