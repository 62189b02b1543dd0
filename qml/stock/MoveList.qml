// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// What became of a thing, the latest first, a few at a time; the earlier ones by a key. One that tells of a run is a key
/// that leads there. Rows: amount, text, run (empty if there is none).
Column {
    id: root

    required property string moreText
    property alias moves: list.model
    property int page: 0
    required property int places

    signal opened(string run)

    spacing: Theme.gap

    Repeater {
        id: list
        delegate: Item {
            id: move

            required property string amount
            required property int index
            readonly property bool leads: move.run !== ""
            required property string run
            required property string text

            Accessible.ignored: move.leads
            Accessible.name: move.amount + ", " + move.text
            Accessible.role: Accessible.ListItem
            height: move.leads ? key.height : words.height + Theme.gapSmall
            visible: Math.floor(move.index / root.places) === root.page % Math.max(1, Math.ceil(list.count / root.places))
            width: root.width

            BigKey {
                id: key
                align: Text.AlignLeft
                height: Theme.touchLeast
                objectName: "moveRun" + move.index
                text: move.text
                textSize: Theme.textSmall
                visible: move.leads
                width: parent.width

                onPressed: root.opened(move.run)
            }
            Label {
                id: amount
                Accessible.ignored: true
                isStrong: true
                objectName: "moveAmount" + move.index
                text: move.amount
                visible: move.amount !== "" && !move.leads
                width: Theme.touchSmall
            }
            Label {
                id: words
                Accessible.ignored: true
                font.pixelSize: Theme.textSmall
                objectName: "moveText" + move.index
                text: move.text
                visible: !move.leads
                width: root.width - x
                x: amount.visible ? amount.width + Theme.gapSmall : 0
            }
            Rectangle {
                anchors.bottom: parent.bottom
                color: Theme.line
                height: Theme.stroke / 2
                visible: !move.leads
                width: parent.width
            }
        }
    }
    BigKey {
        detail: (root.page % Math.max(1, Math.ceil(list.count / root.places)) + 1) + " / " + Math.ceil(list.count / root.places)
        height: Theme.touchSmall
        objectName: "movesMore"
        repeats: true
        text: root.moreText
        visible: list.count > root.places
        width: Theme.touch * 1.5

        onPressed: root.page = root.page + 1
    }
}
