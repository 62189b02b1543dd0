// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// Choices in two columns, as many as there is room for; where there are more, the last place is a key to the next ones.
/// Rows: name, detail, isChosen.
Grid {
    id: root

    property alias choices: list.model
    required property string itemName
    required property string moreText
    property int page: 0
    readonly property int perPage: list.count > root.places ? root.places - 1 : root.places
    property int places: 4

    signal chosen(int row)

    columns: 2
    spacing: Theme.gap

    Repeater {
        id: list
        delegate: ChoiceKey {
            id: choice

            required detail
            required property int index
            required isChosen
            required property string name

            objectName: root.itemName + choice.index
            text: choice.name
            visible: Math.floor(choice.index / root.perPage) === root.page % Math.max(1, Math.ceil(list.count / root.perPage))
            width: (root.width - root.spacing) / 2

            onPressed: root.chosen(choice.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: root.itemName + "More"
        repeats: true
        text: root.moreText
        visible: list.count > root.places
        width: (root.width - root.spacing) / 2

        onPressed: root.page = root.page + 1
    }
}
