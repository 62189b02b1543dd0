// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// A few choices side by side. Rows: name, detail, isChosen.
Grid {
    id: root

    property alias choices: list.model
    required property string itemName
    property real keyHeight: Theme.touchSmall
    property real textSize: Theme.textBody

    signal chosen(int row)

    spacing: Theme.gap

    Repeater {
        id: list
        delegate: ChoiceKey {
            id: choice

            required detail
            required property int index
            required isChosen
            required property string name

            height: root.keyHeight
            objectName: root.itemName + choice.index
            text: choice.name
            textSize: root.textSize
            width: (root.width - (root.columns - 1) * Theme.gap) / root.columns

            onPressed: root.chosen(choice.index)
        }
    }
}
