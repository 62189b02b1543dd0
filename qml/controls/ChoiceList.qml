// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// A list to choose one of, as many as there is room for, the chosen one among them; where there are more, the last place is a
/// key to the next ones. Rows: name, detail, isChosen.
Grid {
    id: root

    property alias choices: list.model
    required property string itemName
    readonly property real itemWidth: (root.width - (root.columns - 1) * root.spacing) / root.columns
    required property string moreText
    property int page: 0
    readonly property int perPage: list.count > root.places ? root.places - 1 : root.places
    required property int places

    signal chosen(int row)

    columns: 1
    spacing: Theme.gap

    Repeater {
        id: list
        delegate: ChoiceKey {
            id: choice

            required detail
            required property int index
            required isChosen
            required property string name

            function showPage() {
                if (choice.isChosen) {
                    root.page = Math.floor(choice.index / root.perPage);
                }
            }

            objectName: root.itemName + choice.index
            text: choice.name
            visible: Math.floor(choice.index / root.perPage) === root.page % Math.max(1, Math.ceil(list.count / root.perPage))
            width: root.itemWidth

            Component.onCompleted: choice.showPage()
            onIsChosenChanged: choice.showPage()
            onPressed: root.chosen(choice.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: root.itemName + "More"
        repeats: true
        text: root.moreText
        visible: list.count > root.places
        width: root.itemWidth

        onPressed: root.page = (root.page + 1) % Math.ceil(list.count / root.perPage)
    }
}
