// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// Steps of a job: done, now and later, told apart by shape, word and weight. The caution stands at the step of now.
Column {
    id: root

    property string caution
    /// Little room: the other steps are small.
    property bool isDense: false
    property alias steps: list.model

    spacing: Theme.gap

    Repeater {
        id: list
        delegate: Item {
            id: row

            readonly property bool isNow: row.state === "now"
            required property int number
            required property string state
            required property string stateText
            required property string text

            Accessible.name: row.number + " " + row.text + ", " + row.stateText
            Accessible.role: Accessible.ListItem
            height: words.height + (row.isNow ? 2 * Theme.gap : 0)
            width: root.width

            Panel {
                anchors.fill: parent
                border.color: Theme.act
                border.width: Theme.strokeHeavy
                visible: row.isNow
            }
            Sign {
                id: sign
                kind: row.state
                size: Theme.sign
                x: Theme.gap
                y: words.y + (label.font.pixelSize * 1.27 - sign.size) / 2
            }
            Column {
                id: words
                anchors.verticalCenter: parent.verticalCenter
                spacing: Theme.gapSmall
                width: row.width - x - Theme.gap
                x: sign.x + sign.width + Theme.gap

                Label {
                    id: label
                    Accessible.ignored: true
                    color: row.state === "later" ? Theme.dim : Theme.ink
                    font.pixelSize: row.isNow ? Theme.textTitle : root.isDense ? Theme.textBody : Theme.textStrong
                    isStrong: row.isNow
                    text: row.text
                    width: parent.width - state.width - Theme.gap

                    Label {
                        id: state
                        Accessible.ignored: true
                        anchors.baseline: parent.baseline
                        anchors.left: parent.right
                        anchors.leftMargin: Theme.gap
                        color: Theme.dim
                        font.pixelSize: Theme.textSmall
                        text: row.stateText
                        wrapMode: Text.NoWrap
                    }
                }
                CautionLine {
                    text: root.caution
                    visible: row.isNow && root.caution !== ""
                    width: parent.width
                }
            }
        }
    }
}
