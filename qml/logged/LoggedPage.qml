// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What was logged of the run at the left; the chosen entry, what became of it and how to put it right in the middle;
/// the pad at the right.
PadPage {
    id: root

    readonly property bool isNarrow: root.isTall || Theme.isLarge
    readonly property LoggedView logged: root.app.logged

    fields: root.logged.fields
    hasPad: root.logged.hasFields || !root.isTall
    isCovered: notes.visible
    leaveText: root.app.label("label.back-to-run")
    mainText: root.logged.mainText
    problem: root.logged.problem
    title: root.app.label("label.logged")

    onLeaving: root.app.backToRun()
    onPressed: root.logged.log()

    ChoiceList {
        choices: root.logged.entries
        height: root.room.height
        itemName: "loggedEntry"
        moreText: root.app.label("label.earlier")
        places: Math.max(2, Math.floor((root.room.height + Theme.gap) / (Theme.touchSmall + Theme.gap)))
        visible: !tanks.visible
        width: root.column

        onChosen: row => root.logged.chooseEntry(row)
    }
    ChoiceList {
        id: tanks
        choices: root.logged.choices
        itemName: "loggedTank"
        moreText: root.app.label("label.more")
        places: 7
        visible: root.logged.isMoving
        width: root.column

        onChosen: row => root.logged.choose(row)
    }
    Column {
        spacing: Theme.gap
        width: root.column
        x: root.column + Theme.gapLarge

        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            objectName: "loggedTitle"
            text: root.logged.title
            visible: text !== ""
            width: parent.width
        }
        ChoiceGrid {
            choices: root.logged.remedies
            columns: root.isNarrow ? 2 : 3
            itemName: "loggedRemedy"
            keyHeight: Theme.lineHeight
            width: parent.width

            onChosen: row => root.logged.chooseRemedy(row)
        }
        Row {
            spacing: Theme.gap
            width: parent.width

            BigKey {
                height: Theme.touchSmall
                objectName: "loggedNotes"
                sign: "note"
                text: root.app.label("app.logged.notes")
                width: (parent.width - Theme.gap) * 0.62

                onPressed: root.app.notes.open(root.logged.chosen)
            }
            BigKey {
                height: Theme.touchSmall
                objectName: "loggedKit"
                text: root.app.label("label.kit")
                width: (parent.width - Theme.gap) * 0.38

                onPressed: root.app.showKit()
            }
        }
        Label {
            text: root.logged.remedyText
            visible: text !== ""
            width: parent.width
        }
        ChoiceGrid {
            choices: root.logged.choices
            columns: 2
            itemName: "loggedMode"
            visible: !root.logged.isMoving
            width: parent.width

            onChosen: row => root.logged.choose(row)
        }
        FieldList {
            columns: root.isNarrow ? 1 : 2
            fields: root.logged.fields
            itemName: "loggedField"
            unitSpoken: root.app.label("label.unit")
            visible: root.logged.hasFields
            widens: true
            width: parent.width
        }
        ChoiceGrid {
            choices: root.logged.reasons
            columns: root.isNarrow ? 1 : 2
            itemName: "loggedReason"
            visible: root.logged.remedyText !== ""
            width: parent.width

            onChosen: row => root.logged.chooseReason(row)
        }
        Label {
            objectName: "loggedNotice"
            text: root.logged.notice
            visible: text !== ""
            width: parent.width
        }
        MoveList {
            moreText: root.app.label("label.earlier")
            moves: root.logged.history
            places: root.isTall ? 2 : 4
            visible: root.logged.remedyText === ""
            width: parent.width
        }
    }
    NoteSheet {
        id: notes
        app: root.app
        height: root.height
        parent: root
        width: root.width
    }
}
