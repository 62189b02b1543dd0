// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Which tank; what is known of it; and the ways to the other jobs.
Item {
    id: root

    required property AppView app
    readonly property real half: (root.width - Theme.gapLarge) / 2
    readonly property SetupView setup: root.app.setup

    signal checkWanted

    implicitHeight: facts.height + Theme.gapLarge + check.height + Theme.gapLarge + jobs.height

    ChoiceList {
        choices: root.setup.tanks
        itemName: "tank"
        moreText: root.app.label("label.more")
        places: Math.max(2, Math.floor((root.height + Theme.gap) / (Theme.touchSmall + Theme.gap)))
        width: root.half

        onChosen: row => root.setup.chooseTank(row)
    }
    Table {
        id: facts
        rows: root.setup.facts
        width: root.half
        x: root.half + Theme.gapLarge
    }
    Column {
        id: check
        spacing: Theme.gap
        width: root.half
        x: facts.x
        y: facts.height + Theme.gapLarge

        NoteLine {
            objectName: "nearbyText"
            text: root.app.finder.text
            visible: root.app.finder.isOn
            width: parent.width
        }
        ChoiceGrid {
            choices: root.app.finder.nearby
            columns: 1
            itemName: "nearby"
            visible: root.app.finder.isOn
            width: parent.width

            onChosen: row => root.app.finder.choose(row)
        }
        NoteLine {
            kind: root.setup.tankCheck.knownSign
            text: root.setup.tankCheck.knownText
            visible: text !== ""
            width: parent.width
        }
        BigKey {
            align: Text.AlignLeft
            height: Theme.lineHeight
            objectName: "checkTank"
            text: root.app.label("app.right-tank.check")
            textSize: Theme.textStrong
            visible: root.setup.tankCheck.title !== ""
            width: parent.width

            onPressed: root.checkWanted()
        }
    }
    Column {
        id: jobs
        anchors.bottom: parent.bottom
        anchors.right: parent.right
        spacing: Theme.gap
        width: root.half

        Label {
            isStrong: true
            text: root.app.label("label.other-jobs")
            width: parent.width
        }
        BigKey {
            align: Text.AlignLeft
            height: Theme.lineHeight
            objectName: "toFlush"
            sign: "flush"
            text: root.app.label("label.flush-cart")
            textSize: Theme.textStrong
            width: parent.width

            onPressed: root.app.showFlush()
        }
        BigKey {
            align: Text.AlignLeft
            height: Theme.lineHeight
            objectName: "toTransfer"
            sign: "waste"
            text: root.app.label("label.to-waste")
            textSize: Theme.textStrong
            width: parent.width

            onPressed: root.app.showTransfer()
        }
    }
}
