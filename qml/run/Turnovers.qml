// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Turnovers through the filters on the way to the target: counted for sure, best, and all that could be.
Item {
    id: root

    required property RunView run
    readonly property real span: Math.max(root.run.target, root.run.turnoversHigh, 1)

    Accessible.name: root.run.turnoversText
    Accessible.role: Accessible.ProgressBar
    implicitHeight: words.height

    Column {
        id: words
        anchors.right: parent.right

        Label {
            Accessible.ignored: true
            anchors.right: parent.right
            isStrong: true
            objectName: "turnoversText"
            text: root.run.turnoversText
            wrapMode: Text.NoWrap
        }
        Label {
            Accessible.ignored: true
            anchors.right: parent.right
            text: root.run.remainingText
            wrapMode: Text.NoWrap
        }
    }
    Rectangle {
        id: bar
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.right: words.left
        anchors.rightMargin: Theme.gapLarge
        anchors.top: parent.top
        border.color: Theme.ink
        border.width: Theme.stroke
        color: Theme.panel

        Rectangle {
            color: Theme.oil4
            height: parent.height
            width: bar.width * root.run.turnoversHigh / root.span
        }
        Rectangle {
            color: Theme.oil2
            height: parent.height
            width: bar.width * root.run.turnoversLow / root.span
        }
        Rectangle {
            color: Theme.ink
            height: parent.height
            visible: root.run.turnoversBest > 0
            width: Theme.strokeHeavy
            x: bar.width * root.run.turnoversBest / root.span - width / 2
        }
        Repeater {
            model: Math.ceil(root.span) - 1

            delegate: Rectangle {
                id: tick

                required property int index

                color: Theme.ink
                height: bar.height
                width: Theme.stroke / 2
                x: bar.width * (tick.index + 1) / root.span
            }
        }
        Rectangle {
            anchors.fill: parent
            border.color: Theme.ink
            border.width: Theme.stroke
            color: "transparent"
        }
    }
}
