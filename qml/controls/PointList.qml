// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// Points to look at, each ticked by a touch. Rows: text, isAnswered.
Grid {
    id: root

    required property string itemName
    property alias points: list.model

    signal answered(int row)

    columnSpacing: Theme.gap
    columns: 2
    rowSpacing: Theme.gap

    Repeater {
        id: list
        delegate: ChoiceKey {
            id: point

            required property int index
            required property bool isAnswered
            required text

            height: Theme.lineHeight
            isChosen: point.isAnswered
            objectName: root.itemName + point.index
            width: (root.width - (root.columns - 1) * Theme.gap) / root.columns

            onPressed: root.answered(point.index)
        }
    }
}
