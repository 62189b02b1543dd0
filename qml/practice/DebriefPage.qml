// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The look back: what was hidden and what it asked for; what Loopside said and what was done; what to take along. It
/// scrolls by touch and by its keys where there is more than fits.
FocusScope {
    id: root

    required property AppView app
    readonly property ExerciseView exercise: root.app.exercise
    readonly property bool isTall: root.height > root.width

    signal again
    signal leaving

    onVisibleChanged: {
        if (root.visible) {
            leave.forceActiveFocus();
        }
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }
    MouseArea {
        anchors.fill: parent
    }
    Label {
        id: title
        font.pixelSize: Theme.textTitle
        isStrong: true
        objectName: "debriefTitle"
        text: root.exercise ? root.exercise.title : ""
        width: parent.width - 2 * Theme.gapLarge
        x: Theme.gapLarge
        y: Theme.frame + Theme.gapLarge
    }
    ScrollArea {
        id: area
        anchors.bottom: keys.top
        anchors.bottomMargin: Theme.gap
        anchors.top: title.bottom
        anchors.topMargin: Theme.gap
        contentHeight: parts.height
        width: title.width
        x: Theme.gapLarge

        Grid {
            id: parts

            readonly property real side: root.isTall ? area.room : (area.room - spacing) / 2

            columns: root.isTall ? 1 : 2
            spacing: Theme.gapLarge
            width: area.room

            Column {
                spacing: Theme.gap
                width: parts.side

                Label {
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    text: root.app.label("label.practice-hidden")
                    width: parent.width
                }
                Label {
                    objectName: "debriefHidden"
                    text: root.exercise ? root.exercise.hiddenText : ""
                    width: parent.width
                }
                Label {
                    color: Theme.dim
                    text: root.exercise ? root.exercise.noticedText : ""
                    visible: text !== ""
                    width: parent.width
                }
                Label {
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    text: root.app.label("label.practice-goals")
                    width: parent.width
                }
                Repeater {
                    model: root.exercise ? root.exercise.goals : null

                    delegate: NoteLine {
                        id: goal

                        required property int index
                        required property string sign
                        required property string signText
                        required text

                        Accessible.description: goal.signText
                        kind: goal.sign
                        objectName: "goal" + goal.index
                        width: parent.width
                    }
                }
                Label {
                    isStrong: true
                    objectName: "debriefScore"
                    text: root.exercise ? root.exercise.scoreText : ""
                    width: parent.width
                }
                Label {
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    text: root.app.label("label.practice-next")
                    width: parent.width
                }
                Label {
                    text: root.exercise ? root.exercise.nextText : ""
                    width: parent.width
                }
            }
            Column {
                spacing: Theme.gapLarge
                width: parts.side

                DebriefLines {
                    lines: root.exercise ? root.exercise.did : null
                    title: root.app.label("label.practice-did")
                    width: parent.width
                }
                DebriefLines {
                    lines: root.exercise ? root.exercise.found : null
                    title: root.app.label("label.practice-found")
                    width: parent.width
                }
            }
        }
    }
    Row {
        id: keys
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gapLarge
        spacing: Theme.gap
        x: Theme.gapLarge

        BigKey {
            id: leave
            isMain: true
            objectName: "debriefLeave"
            text: root.app.label("label.practice-leave")
            textSize: Theme.textStrong
            width: (title.width - Theme.gap) / 2

            onPressed: root.leaving()
        }
        BigKey {
            objectName: "debriefAgain"
            text: root.app.label("label.practice-again")
            textSize: Theme.textStrong
            width: (title.width - Theme.gap) / 2

            onPressed: root.again()
        }
    }
}
