// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The end of a run: after sample while the oil circulates, shut-down, disconnect points, signature; the totals beside. For
/// a left hand the other way round.
FocusScope {
    id: root

    required property AppView app
    readonly property CloseOutView closeOut: root.app.closeOut
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width

    focus: true

    Header {
        id: header
        app: root.app
        enabled: !why.visible
        width: root.width
    }
    ScrollArea {
        id: area
        anchors.bottom: keys.top
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        anchors.top: header.bottom
        contentHeight: root.isTall ? totals.y + totals.height : Math.max(steps.height, totals.height)
        enabled: !why.visible

        Column {
            id: steps
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room * 0.55
            x: root.isKeysLeft ? area.room - width : 0

            Label {
                font.pixelSize: Theme.textNumber
                isStrong: true
                text: root.closeOut.title
                width: parent.width
            }
            StepList {
                caution: root.closeOut.caution
                steps: root.closeOut.steps
                visible: !root.closeOut.wantsLook
                width: parent.width
            }
            ChecklistPanel {
                app: root.app
                checklist: root.closeOut.points
                itemName: "restorePoint"
                visible: root.closeOut.wantsLook
                width: parent.width
            }
        }
        Column {
            id: totals
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room - steps.width - Theme.gapLarge
            x: root.isTall || root.isKeysLeft ? 0 : steps.width + Theme.gapLarge
            y: root.isTall ? steps.height + Theme.gapLarge : 0

            Label {
                font.pixelSize: Theme.textStrong
                isStrong: true
                text: root.app.label("label.totals")
                width: parent.width
            }
            Table {
                rows: root.closeOut.totals
                width: parent.width
            }
            Label {
                objectName: "proofText"
                text: root.closeOut.proofText
                width: parent.width
            }
            NoteLine {
                kind: root.closeOut.recordSign
                objectName: "recordText"
                text: root.closeOut.recordText
                visible: text !== ""
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textSmall
                objectName: "leftOutText"
                text: root.closeOut.leftOutText
                visible: text !== ""
                width: parent.width
            }
        }
    }
    StepKeys {
        id: keys
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        enabled: !why.visible
        keys: root.closeOut.keys
        leaveText: root.app.label(root.closeOut.isSigned ? "label.to-the-run" : "label.leave-as-is")

        onLeaving: root.closeOut.leave()
        onPressed: say => root.closeOut.press(say)
    }
    WhySkippedSheet {
        id: why
        app: root.app
        checklist: root.closeOut.points
    }
}
