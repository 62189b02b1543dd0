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
    property int page: 0
    readonly property int places: root.columns === 3 ? 5 : 2

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
    ChoiceGrid {
        choices: root.notes.signs
        columns: root.width < Theme.touch * 7 ? 3 : 5 // their words are long
        itemName: "noteSign"
        width: parent.width

        onChosen: row => root.notes.toggleSign(row)
    }
    Label {
        objectName: "noteSigns"
        text: root.notes.signsText
        width: parent.width
    }
    Label {
        text: root.app.label("app.note.none")
        visible: list.count === 0
        width: parent.width
    }
    Repeater {
        id: list
        model: root.notes.rows

        delegate: BigKey {
            id: row

            required property string byText
            required property int index
            required sign
            required text

            align: Text.AlignLeft
            detail: row.byText
            height: Theme.touchSmall
            objectName: "noteRow" + row.index
            visible: Math.floor(row.index / root.places) === root.page
            width: root.width

            onPressed: root.notes.show(row.index)
        }
    }
    Row {
        layoutDirection: Theme.isLeftHanded ? Qt.LeftToRight : Qt.RightToLeft
        spacing: Theme.gap
        width: parent.width

        BigKey {
            enabled: root.notes.canLogSigns
            isMain: true
            objectName: "noteLog"
            text: root.app.label("app.sign.log")
            textSize: Theme.textTitle
            width: Theme.touch * 2.2

            onPressed: root.notes.logSigns()
        }
        BigKey {
            objectName: "noteClose"
            text: root.app.label("label.back")
            textSize: Theme.textStrong
            width: Theme.touch

            onPressed: root.notes.close()
        }
        BigKey {
            objectName: "noteMore"
            repeats: true
            text: root.app.label("label.earlier")
            textSize: Theme.textStrong
            visible: list.count > root.places
            width: Theme.touch

            onPressed: root.page = (root.page + 1) % Math.ceil(list.count / root.places)
        }
    }

    component WayKey: BigKey {
        id: way

        required property int mode

        height: Theme.touch * 0.75
        width: (root.width - (root.columns - 1) * Theme.gap) / root.columns

        onPressed: root.notes.go(way.mode)
    }
}
