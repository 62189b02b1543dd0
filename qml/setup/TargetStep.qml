// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What ends the run: turnovers, each with its time; a code, if one is wanted and can be counted.
Item {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    implicitHeight: Theme.isLarge ? keys.y + keys.height : Math.max(told.height, keys.height)

    Column {
        id: told
        spacing: Theme.gap
        width: Theme.isLarge ? root.width : root.width - keys.width - Theme.gap
        x: Theme.isLeftHanded && !Theme.isLarge ? keys.width + Theme.gap : 0

        Grid {
            columns: 2
            spacing: Theme.gap
            width: parent.width

            Repeater {
                model: root.setup.targets

                delegate: BigKey {
                    id: target

                    required detail
                    required property int index
                    required property bool isChosen
                    required property string name

                    Accessible.checkable: true
                    height: Theme.lineHeight
                    isMarked: target.isChosen
                    objectName: "target" + target.index
                    sign: target.isChosen ? "done" : "later"
                    signSize: Theme.textSmall
                    spoken: target.name + " " + root.app.label("app.setup.turnovers")
                    text: target.name + " ×"
                    textSize: Theme.textTitle
                    width: (parent.width - Theme.gap) / 2

                    onPressed: root.setup.chooseTarget(target.index)
                }
            }
        }
        Table {
            rows: root.setup.facts
            width: parent.width
        }
        FieldList {
            fields: root.setup.code
            itemName: "code"
            unitSpoken: root.app.label("label.unit")
            width: parent.width
        }
        CounterKey {
            app: root.app
            height: Theme.lineHeight
            objectName: "counterOnSite"
            width: parent.width
        }
        NoteList {
            notes: root.setup.notes
            width: parent.width
        }
    }
    FieldKeys {
        id: keys
        backSpoken: root.app.label("label.key-back")
        fields: root.setup.code
        pointSpoken: root.app.label("label.key-point")
        x: Theme.isLarge || Theme.isLeftHanded ? 0 : root.width - keys.width
        y: Theme.isLarge ? told.height + Theme.gap : 0
    }
}
