// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What the container's label says, to be written on it.
Rectangle {
    id: root

    required property AppView app

    Accessible.ignored: true
    border.color: Theme.ink
    border.width: Theme.stroke
    color: Theme.panel
    implicitHeight: lines.height + 2 * Theme.gap
    radius: Theme.radius
    visible: list.count > 0

    Column {
        id: lines
        anchors.centerIn: parent
        spacing: Theme.gapSmall
        width: parent.width - 2 * Theme.gap

        Label {
            color: Theme.dim
            font.pixelSize: Theme.textSmall
            text: root.app.label("label.waste-label")
            width: parent.width
        }
        Repeater {
            id: list
            model: root.app.transfer.label

            delegate: Label {
                id: line

                required property int index
                required text

                font.pixelSize: line.index === 0 ? Theme.textNumber : Theme.textBody
                isStrong: line.index === 0
                objectName: "wasteLabel" + line.index
                width: lines.width
            }
        }
    }
}
