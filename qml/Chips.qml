// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The open runs: tank, minutes to the next reading, worst state by shape and word. A touch shows that run.
///
/// A key at the end moves on where there are more than fit.
Item {
    id: root

    required property AppView app
    readonly property alias count: list.count
    readonly property bool isLong: list.contentWidth > root.width

    ListView {
        id: list
        anchors.fill: parent
        anchors.rightMargin: root.isLong ? more.width + Theme.gap : 0
        clip: root.isLong
        interactive: false
        model: root.app.chips
        orientation: ListView.Horizontal
        spacing: Theme.gap

        delegate: BigKey {
            id: chip

            required property string dueText
            required property int index
            required property bool isShown
            required property string level
            required property string levelText
            required property string tank

            align: Text.AlignLeft
            detail: chip.levelText + " · " + chip.dueText
            height: root.height
            isMarked: chip.isShown
            objectName: "chip" + chip.index
            sign: chip.level
            text: chip.tank
            width: Theme.touch * 2

            onPressed: root.app.showRun(chip.index)
        }
    }
    BigKey {
        id: more
        anchors.right: parent.right
        height: root.height
        objectName: "moreChips"
        sign: "now"
        spoken: root.app.label("label.more-runs")
        visible: root.isLong
        width: Theme.touchSmall

        onPressed: list.currentIndex = (list.currentIndex + 1) % list.count
    }
}
