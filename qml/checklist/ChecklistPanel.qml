// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// A checklist, a point at a time: the keys stand at the point of now and move on with it, so that no finger goes
/// through all of them in one place. Every point has its own answer; nothing is ticked before.
Column {
    id: root

    required property AppView app
    required property ChecklistView checklist
    /// Somebody answers: the keyboard goes on from point to point, and the point of now comes into sight.
    property bool isBegun: false
    /// What the names of its keys begin with, such as "areaPoint".
    required property string itemName

    spacing: Theme.gapSmall

    onVisibleChanged: root.isBegun = false

    Repeater {
        model: root.checklist.points

        delegate: ChecklistRow {
            app: root.app
            checklist: root.checklist
            isFollowed: root.isBegun
            itemName: root.itemName
            width: root.width

            onAnswering: root.isBegun = true
            onFollowing: root.forceLayout()
        }
    }
    Row {
        spacing: Theme.gap
        width: parent.width

        BigKey {
            enabled: root.checklist.canGoBack
            height: Theme.touchSmall
            objectName: root.itemName + "Back"
            text: root.app.label("app.check.before")
            width: Theme.touch * 1.8

            onPressed: root.checklist.back()
        }
        Label {
            height: Theme.touchSmall
            objectName: root.itemName + "Standing"
            text: root.checklist.standingText
            verticalAlignment: Text.AlignVCenter
            width: parent.width - x
        }
    }
}
