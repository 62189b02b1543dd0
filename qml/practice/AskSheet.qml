// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Where to look, what it may be, whether to end.
Sheet {
    id: root

    required property AppView app
    readonly property string asks: root.exercise ? root.exercise.asks : "none"
    readonly property ExerciseView exercise: root.app.exercise
    readonly property bool isEnd: root.asks === "end"

    anchors.topMargin: Theme.frame + Theme.gapSmall
    room: Theme.sheet * 1.8
    title: root.app.label(root.isEnd ? "label.practice-end-title" : root.asks === "look" ? "label.practice-look-title" : "label.practice-think-title")
    visible: root.asks !== "none"

    ChoiceGrid {
        choices: root.exercise ? root.exercise.choices : null
        columns: root.height > root.width ? 1 : 3
        itemName: "choice"
        keyHeight: Theme.touchSmall
        visible: !root.isEnd
        width: parent.width

        onChosen: row => root.exercise.choose(row)
    }
    BigKey {
        isMain: true
        objectName: "practiceEndYes"
        text: root.app.label("label.practice-end-yes")
        textSize: Theme.textStrong
        visible: root.isEnd
        width: parent.width

        onPressed: root.exercise.end()
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "practiceBack"
        text: root.app.label(root.isEnd ? "label.practice-go-on" : "label.back")
        width: parent.width

        onPressed: root.exercise.back()
    }
}
