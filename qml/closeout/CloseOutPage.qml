// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The end of a run: after sample while the oil circulates, shut-down, disconnect points, signature; the totals beside.
FocusScope {
    id: root

    required property AppView app
    readonly property CloseOutView closeOut: root.app.closeOut
    readonly property bool isTall: root.height > root.width

    focus: true

    Header {
        id: header
        app: root.app
        width: root.width
    }
    Column {
        id: steps
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.top: header.bottom
        spacing: Theme.gap
        width: root.isTall ? root.width - 2 * Theme.gap : root.width * 0.55

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
        anchors.left: root.isTall ? parent.left : steps.right
        anchors.leftMargin: root.isTall ? Theme.gap : Theme.gapLarge
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.top: root.isTall ? steps.bottom : header.bottom
        anchors.topMargin: root.isTall ? Theme.gapLarge : 0
        spacing: Theme.gap

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
        Label {
            font.pixelSize: Theme.textSmall
            objectName: "leftOutText"
            text: root.closeOut.leftOutText
            visible: text !== ""
            width: parent.width
        }
    }
    StepKeys {
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        keys: root.closeOut.keys
        leaveText: root.app.label(root.closeOut.isSigned ? "label.to-the-run" : "label.leave-as-is")

        onLeaving: root.closeOut.leave()
        onPressed: say => root.closeOut.press(say)
    }
    WhySkippedSheet {
        app: root.app
        checklist: root.closeOut.points
    }
}
