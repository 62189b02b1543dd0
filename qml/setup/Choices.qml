// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The choices of a set-up: tanks at the left, carts and targets beside them, the points of the area below.
Item {
    id: root

    required property AppView app
    readonly property real half: (root.width - Theme.gapLarge) / 2
    required property bool isTall
    readonly property SetupView setup: root.app.setup

    implicitHeight: checks.y + checks.height

    Column {
        id: tanks
        spacing: Theme.gap
        width: root.half

        Title {
            text: root.app.label("label.step-tank")
        }
        ChoiceList {
            choices: root.setup.tanks
            itemName: "tank"
            moreText: root.app.label("label.more")
            places: 5
            width: root.half

            onChosen: row => root.setup.chooseTank(row)
        }
    }
    Column {
        id: others
        spacing: Theme.gap
        width: root.half
        x: root.half + Theme.gapLarge

        Title {
            text: root.app.label("label.step-cart")
        }
        ChoiceList {
            choices: root.setup.carts
            itemName: "cart"
            moreText: root.app.label("label.more")
            places: root.isTall ? 2 : 3
            width: root.half

            onChosen: row => root.setup.chooseCart(row)
        }
        Title {
            text: root.app.label("label.step-target")
        }
        Grid {
            columns: root.isTall ? 4 : 2
            spacing: Theme.gap

            Repeater {
                model: root.setup.targets

                delegate: BigKey {
                    id: target

                    required detail
                    required property int index
                    required property bool isChosen
                    required property string name

                    height: Theme.touchSmall
                    isDetailShown: false
                    isMarked: target.isChosen
                    objectName: "target" + target.index
                    text: target.name
                    textSize: Theme.textTitle
                    width: root.isTall ? (root.half - 3 * Theme.gap) / 4 : (root.half - Theme.gap) / 2

                    onPressed: root.setup.chooseTarget(target.index)
                }
            }
        }
        CounterKey {
            app: root.app
            objectName: "counterOnSite"
            visible: root.isTall
            width: root.half
        }
    }
    Column {
        id: checks
        spacing: Theme.gap
        width: root.width
        y: Math.max(tanks.height, others.height) + Theme.gap

        Title {
            text: root.app.label("label.step-area")
        }
        Grid {
            columnSpacing: Theme.gapLarge
            columns: 2
            rowSpacing: Theme.gap

            Repeater {
                model: root.setup.checks

                delegate: ChoiceKey {
                    id: check

                    required property int index
                    required property bool isAnswered
                    required text

                    isChosen: check.isAnswered
                    objectName: "check" + check.index
                    width: root.half

                    onPressed: root.setup.answerCheck(check.index)
                }
            }
        }
    }

    component Title: Label {
        font.pixelSize: Theme.textStrong
        isStrong: true
        width: parent.width
    }
}
