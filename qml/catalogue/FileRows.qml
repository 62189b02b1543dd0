// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What becomes of each row of a file: a shape, a word, what changes or what is wrong and what to do about it.
Column {
    id: root

    required property string moreText
    property int page: 0
    readonly property int pages: Math.max(1, Math.ceil(list.count / root.places))
    required property int places
    property alias rows: list.model

    spacing: Theme.gapSmall

    Repeater {
        id: list
        delegate: Item {
            id: row

            required property int index
            required property string sign
            required property string text
            required property string title

            Accessible.name: row.title + ". " + row.text
            Accessible.role: Accessible.ListItem
            height: words.y + (row.text !== "" ? words.height : 0) + Theme.gapSmall
            visible: Math.floor(row.index / root.places) === root.page % root.pages
            width: root.width

            Sign {
                id: shape
                kind: row.sign
            }
            Label {
                id: heading
                Accessible.ignored: true
                isStrong: true
                objectName: "fileRow" + row.index
                text: row.title
                width: row.width - x
                x: shape.width + Theme.gap
            }
            Label {
                id: words
                Accessible.ignored: true
                font.pixelSize: Theme.textSmall
                objectName: "fileText" + row.index
                text: row.text
                width: row.width - x
                x: heading.x
                y: Math.max(heading.height, shape.height)
            }
            Rectangle {
                anchors.bottom: parent.bottom
                color: Theme.line
                height: Theme.stroke / 2
                width: parent.width
            }
        }
    }
    BigKey {
        detail: (root.page % root.pages + 1) + " / " + root.pages
        height: Theme.touchSmall
        objectName: "fileMore"
        repeats: true
        text: root.moreText
        visible: list.count > root.places
        width: Theme.touch * 1.5

        onPressed: root.page = root.page + 1
    }
}
