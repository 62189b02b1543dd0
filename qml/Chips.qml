// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The open runs: tank, worst state by shape and word, minutes to the next reading. A touch shows that run.
///
/// Where there are more than fit, a key at the end shows the next ones.
Row {
    id: root

    required property AppView app
    readonly property alias count: list.count
    readonly property bool isLong: root.count * (Theme.chip + Theme.gap) - Theme.gap > root.width
    property int page: 0
    readonly property int perPage: root.isLong ? Math.max(1, Math.floor((root.width - Theme.touchLeast) / (Theme.chip + Theme.gap))) : Math.max(1, root.count)
    readonly property real room: root.width - (root.isLong ? Theme.touchLeast + Theme.gap : 0)

    /// The run that is shown is among the chips that are seen.
    function turnToShown() {
        for (let i = 0; i < list.count; ++i) {
            const chip = list.itemAt(i);
            if (chip && chip.isShown) {
                root.page = Math.floor(i / root.perPage);
            }
        }
    }

    spacing: Theme.gap

    onPerPageChanged: Qt.callLater(root.turnToShown)

    Repeater {
        id: list
        model: root.app.chips

        delegate: BigKey {
            id: chip

            required property string dueText
            required property int index
            required property bool isShown
            required property string level
            required property string levelText
            required property string tank

            align: Text.AlignLeft
            detail: chip.levelText + "\n" + chip.dueText
            detailSize: Theme.textLeast
            height: root.height
            isMarked: chip.isShown
            objectName: "chip" + chip.index
            sign: chip.level
            signSize: Theme.px(14)
            text: chip.tank
            textSize: Theme.textLeast
            visible: Math.floor(chip.index / root.perPage) === root.page
            width: Math.min(Theme.touch * 2, (root.room + Theme.gap) / root.perPage - Theme.gap)
            wrapsDetail: false

            Component.onCompleted: Qt.callLater(root.turnToShown)
            onIsShownChanged: Qt.callLater(root.turnToShown)
            onPressed: root.app.showRun(chip.index)
        }
    }
    BigKey {
        height: root.height
        objectName: "moreChips"
        repeats: true
        sign: "now"
        spoken: root.app.label("label.more-runs")
        visible: root.isLong
        width: Theme.touchLeast

        onPressed: root.page = (root.page + 1) % Math.ceil(root.count / root.perPage)
    }
}
