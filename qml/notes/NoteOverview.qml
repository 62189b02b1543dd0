// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The ways to note something, what may be seen or heard, and what was noted so far, the youngest first.
Column {
    id: root

    required property AppView app
    readonly property int columns: root.width < Theme.touch * 5.4 ? 3 : 5
    readonly property NotesView notes: root.app.notes

    spacing: Theme.gap

    Grid {
        columnSpacing: Theme.gap
        columns: root.columns
        rowSpacing: Theme.gap
        width: parent.width

        WayKey {
            mode: NotesView.Write
            objectName: "noteWrite"
            text: root.app.label("app.note.write")
        }
        WayKey {
            mode: NotesView.Draw
            objectName: "noteDraw"
            text: root.app.label("app.note.draw")
        }
        WayKey {
            enabled: root.notes.noSoundText === ""
            mode: NotesView.Speak
            objectName: "noteSpeak"
            text: root.app.label("app.note.speak")
        }
        WayKey {
            enabled: root.notes.noCameraText === ""
            mode: NotesView.Look
            objectName: "notePhoto"
            text: root.app.label("app.note.photo")
        }
        WayKey {
            mode: NotesView.Pick
            objectName: "noteFile"
            text: root.app.label("app.note.file")
        }
    }
    Label {
        objectName: "noteMissing"
        text: root.notes.notThereText
        visible: text !== ""
        width: parent.width
    }
    Label {
        isStrong: true
        text: root.app.label("app.note.seen")
        width: parent.width
    }
    Grid {
        columnSpacing: Theme.gap
        columns: root.columns
        rowSpacing: Theme.gap
        width: parent.width

        Repeater {
            model: root.notes.signs

            delegate: BigKey {
                id: sign

                required property int index
                required text

                height: Theme.touchSmall
                objectName: "noteSign" + sign.index
                width: (root.width - (root.columns - 1) * Theme.gap) / root.columns

                onPressed: root.notes.tellSign(sign.index)
            }
        }
    }
    Label {
        text: root.app.label("app.note.none")
        visible: list.count === 0
        width: parent.width
    }
    ListView {
        id: list
        clip: true
        height: Math.min(count, 3) * (Theme.touchSmall + Theme.gapSmall)
        model: root.notes.rows
        spacing: Theme.gapSmall
        width: parent.width

        delegate: BigKey {
            id: row

            required property string byText
            required property bool canShow
            required property int index
            required property bool isWithdrawn
            required sign
            required text

            align: Text.AlignLeft
            detail: row.byText
            enabled: row.canShow
            height: Theme.touchSmall
            objectName: "noteRow" + row.index
            width: list.width

            onPressed: root.notes.show(row.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "noteClose"
        text: root.app.label("label.back")
        width: parent.width

        onPressed: root.notes.close()
    }

    component WayKey: BigKey {
        id: way

        required property int mode

        height: Theme.touch * 0.75
        width: (root.width - (root.columns - 1) * Theme.gap) / root.columns

        onPressed: root.notes.go(way.mode)
    }
}
