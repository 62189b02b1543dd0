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

    implicitHeight: facts.height + Theme.gapLarge + jobs.height

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
