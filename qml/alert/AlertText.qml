// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What is wrong, where, how it was seen, and what to do; the caution of the work at its end.
Item {
    id: root

    required property AlertView alert

    Accessible.name: root.alert.place + ". " + root.alert.title
    Accessible.role: Accessible.AlertMessage

    ScrollArea {
        id: area
        anchors.fill: parent
        contentHeight: what.height + Theme.gap + more.height
        shows: root.alert.isUp + root.alert.place + root.alert.title

        Column {
            id: what
            spacing: Theme.gap
            width: parent.width

            Label {
                color: Theme.dim
                font.pixelSize: Theme.textTitle
                isStrong: true
                text: root.alert.place
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textAlarm
                isStrong: true
                objectName: "alertTitle"
                text: root.alert.title
                width: parent.width
            }
            Label {
                color: Theme.dim
                font.pixelSize: Theme.textStrong
                objectName: "alertEvidence"
                text: root.alert.evidence
                width: parent.width
            }
            Label {
                font.pixelSize: root.alert.level === "stop" ? Theme.textTitle : Theme.textNumber
                isStrong: true
                text: root.alert.advice
                width: parent.width
            }
            Repeater {
                model: root.alert.steps

                delegate: Item {
                    id: step

                    required property int index
                    required property string modelData

                    height: words.height
                    width: area.room

                    Label {
                        id: number
                        Accessible.ignored: true
                        font.pixelSize: Theme.textStrong
                        isStrong: true
                        text: step.index + 1
                        width: Theme.gapLarge * Theme.textScale
                    }
                    Label {
                        id: words
                        anchors.left: number.right
                        anchors.right: parent.right
                        font.pixelSize: Theme.textStrong
                        text: step.modelData
                    }
                }
            }
        }
        Column {
            id: more
            spacing: Theme.gap
            width: parent.width
            y: Math.max(what.height + Theme.gap, area.height - more.height)

            Label {
                isStrong: true
                objectName: "alertMore"
                text: root.alert.moreText
                visible: text !== ""
                width: parent.width
            }
            CautionLine {
                text: root.alert.caution
                width: parent.width
            }
            Label {
                color: Theme.dim
                text: root.alert.note
                width: parent.width
            }
        }
    }
}
