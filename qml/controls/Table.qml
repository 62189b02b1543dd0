// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// Names and values under each other; the value below its name where the table is narrow. Rows: name, value.
Column {
    id: root

    /// Small names, where there is little room.
    property bool isDense: root.isStacked
    property bool isStacked: false
    property alias rows: list.model

    spacing: Theme.gapSmall

    Repeater {
        id: list
        delegate: Item {
            id: row

            required property string name
            required property string value

            Accessible.name: row.name + ": " + row.value
            Accessible.role: Accessible.StaticText
            height: root.isStacked ? value.y + value.height : Math.max(name.height, value.height) + Theme.gapSmall
            width: root.width

            Label {
                id: name
                Accessible.ignored: true
                color: Theme.dim
                font.pixelSize: root.isDense ? Theme.textSmall : Theme.textBody
                text: row.name
                width: root.isStacked ? row.width : row.width * 0.58 - Theme.gap
            }
            Label {
                id: value
                Accessible.ignored: true
                horizontalAlignment: root.isStacked ? Text.AlignLeft : Text.AlignRight
                isStrong: true
                text: row.value
                width: root.isStacked ? row.width : row.width * 0.42
                x: root.isStacked ? 0 : row.width * 0.58
                y: root.isStacked ? name.height : 0
            }
            Rectangle {
                anchors.bottom: parent.bottom
                color: Theme.line
                height: Theme.stroke / 2
                visible: !root.isStacked
                width: parent.width
            }
        }
    }
}
