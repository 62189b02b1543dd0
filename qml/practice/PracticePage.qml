// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The twelve exercises; beside the list, or below it where the window is tall, what the chosen one asks for.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property PracticeView practice: root.app.practice
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * 3

    focus: true

    Header {
        id: header
        app: root.app
        title: root.app.label("label.practice")
        width: root.width
    }
    ChoiceGrid {
        id: list
        anchors.top: header.bottom
        anchors.topMargin: Theme.gapSmall
        choices: root.practice.exercises
        columns: 2
        itemName: "exercise"
        keyHeight: root.isTall ? Theme.lineHeight : (root.height - header.height - Theme.gapSmall - 6 * Theme.gap) / 6
        textSize: Theme.textBody
        width: root.isTall ? root.side : root.width - root.side - 2 * Theme.gap - Theme.gapLarge
        x: root.isKeysLeft ? root.width - list.width - Theme.gap : Theme.gap

        onChosen: row => root.practice.choose(row)
    }
    ScrollArea {
        id: side
        contentHeight: words.height
        height: start.y - y - Theme.gap
        shows: root.practice.title
        width: root.side
        x: root.isTall || root.isKeysLeft ? Theme.gap : root.width - root.side - Theme.gap
        y: root.isTall ? list.y + list.height + Theme.gapLarge : header.height + Theme.gap

        Column {
            id: words
            spacing: Theme.gapLarge
            width: side.room

            Label {
                font.pixelSize: Theme.textTitle
                isStrong: true
                objectName: "exerciseTitle"
                text: root.practice.title
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textStrong
                objectName: "exerciseTask"
                text: root.practice.task
                width: parent.width
            }
            NoteLine {
                text: root.app.label("label.practice-intro")
                width: parent.width
            }
            CautionLine {
                objectName: "practiceProblem"
                text: root.practice.problem
                visible: root.practice.problem !== ""
                width: parent.width
            }
        }
    }
    BigKey {
        id: start
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        enabled: root.practice.canStart
        isMain: true
        objectName: "exerciseStart"
        text: root.app.label("label.practice-start")
        textSize: Theme.textTitle
        width: side.width
        x: side.x

        onPressed: root.practice.start()
    }
}
