// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What one sees, hears and can do at the simulated cart: dials to be read, the thermometer, signs, the clock of the
/// exercise. It lies over the loop and the trend; the pad and the mode keys stay free.
Rectangle {
    id: root

    required property AppView app
    required property ExerciseView exercise
    readonly property real inner: Theme.gap

    border.color: Theme.practice
    border.width: Theme.strokeHeavy
    color: Theme.ground
    radius: Theme.radius

    MouseArea {
        anchors.fill: parent
    }
    Label {
        id: title
        elide: Text.ElideRight
        isStrong: true
        maximumLineCount: Theme.isLarge ? 4 : 2
        text: root.exercise.title + ". " + root.exercise.task
        width: parent.width - 2 * root.inner
        x: root.inner
        y: root.inner
    }
    Row {
        id: dials
        anchors.bottom: seen.top
        anchors.bottomMargin: Theme.gapSmall
        anchors.top: title.bottom
        anchors.topMargin: Theme.gapSmall
        spacing: Theme.gap
        width: title.width
        x: root.inner

        Repeater {
            id: list
            model: root.exercise.dials

            delegate: Dial {
                id: dial

                required graduation
                required high
                required property int index
                required labels
                required low
                required name
                required span
                required spoken
                required unit

                height: dials.height
                objectName: "dial" + dial.index
                width: (dials.width - (list.count - 1) * dials.spacing) / list.count
            }
        }
    }
    Row {
        id: seen
        anchors.bottom: keys.top
        anchors.bottomMargin: Theme.gapSmall
        height: Math.max(Theme.sign * 3, oil.height, signs.height)
        spacing: Theme.gapLarge
        width: title.width
        x: root.inner

        Column {
            id: oil
            width: Theme.touch * 1.8

            Label {
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                text: root.app.label("label.practice-oil")
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textTitle
                isStrong: true
                objectName: "practiceOil"
                text: root.exercise.oilText
            }
        }
        Column {
            id: signs
            spacing: Theme.gapSmall
            width: parent.width - Theme.touch * 1.8 - parent.spacing

            Repeater {
                model: root.exercise.signs

                delegate: NoteLine {
                    id: sign

                    required property int index
                    required property string sign
                    required text

                    kind: sign.sign
                    objectName: "sign" + sign.index
                    width: parent.width
                }
            }
            Label {
                font.pixelSize: Theme.textBody
                isStrong: true
                maximumLineCount: 2
                objectName: "sight"
                text: root.exercise.sight
                visible: text !== ""
                width: parent.width
            }
        }
    }
    Column {
        id: keys

        readonly property real key: (width - 3 * spacing) / 4
        readonly property real lower: keys.key * 0.87 // beside the keys of the stages, which are two

        anchors.bottom: parent.bottom
        anchors.bottomMargin: root.inner
        spacing: Theme.gap
        width: title.width
        x: root.inner

        Row {
            spacing: keys.spacing

            Repeater {
                model: root.exercise.rates

                delegate: BigKey {
                    id: rate

                    required property int index
                    required property bool isChosen
                    required property string name

                    height: Theme.touchSmall
                    isMarked: rate.isChosen
                    objectName: "rate" + rate.index
                    repeats: true
                    text: rate.name
                    width: keys.key

                    onPressed: root.exercise.chooseRate(rate.index)
                }
            }
        }
        Row {
            spacing: keys.spacing

            BigKey {
                height: Theme.touchSmall
                objectName: "nextReading"
                text: root.app.label("label.practice-next-reading")
                width: keys.lower

                onPressed: root.exercise.toNextReading()
            }
            BigKey {
                height: Theme.touchSmall
                objectName: "look"
                text: root.app.label("label.practice-look")
                width: keys.lower

                onPressed: root.exercise.askLook()
            }
            BigKey {
                height: Theme.touchSmall
                objectName: "think"
                text: root.app.label("label.practice-think")
                width: keys.lower

                onPressed: root.exercise.askThink()
            }
            Row {
                spacing: Theme.gap

                Repeater {
                    id: stages
                    model: root.exercise.stages

                    delegate: BigKey {
                        id: stage

                        required property int index
                        required property string name

                        height: Theme.touchSmall
                        objectName: "changeStage" + (stage.index + 1)
                        text: stage.name
                        textSize: Theme.textSmall
                        width: (keys.width - 3 * (keys.lower + keys.spacing) - (stages.count - 1) * Theme.gap) / stages.count

                        onPressed: root.exercise.change(stage.index + 1)
                    }
                }
            }
        }
    }
}
