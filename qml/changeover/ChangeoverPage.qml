// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The changeover of a stage, a step at a time. The pad stands beside while the no-pressure readings are asked for.
FocusScope {
    id: root

    required property AppView app
    readonly property ChangeoverView changeover: root.app.changeover
    readonly property bool hasPad: root.changeover.wantsGauges
    readonly property bool isPadLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width

    focus: true

    Item {
        id: left
        enabled: !why.visible
        height: root.hasPad && root.isTall ? root.height - pad.height : root.height
        width: root.hasPad && !root.isTall ? root.width - pad.width : root.width
        x: root.hasPad && root.isPadLeft ? pad.width : 0

        Header {
            id: header
            app: root.app
            width: parent.width
        }
        ScrollArea {
            id: area
            anchors.bottom: keys.top
            anchors.left: parent.left
            anchors.margins: Theme.gap
            anchors.right: parent.right
            anchors.top: header.bottom
            contentHeight: words.height

            Column {
                id: words
                spacing: Theme.gap
                width: area.room

                Label {
                    font.pixelSize: root.hasPad ? Theme.textTitle : Theme.textNumber
                    isStrong: true
                    text: root.changeover.title
                    width: parent.width
                }
                CautionLine {
                    objectName: "changeoverWarning"
                    text: root.changeover.warning
                    visible: root.changeover.warning !== ""
                    width: parent.width
                }
                StepList {
                    caution: root.changeover.caution
                    isDense: root.hasPad
                    steps: root.changeover.steps
                    visible: !root.changeover.wantsLook
                    width: parent.width
                }
                CautionLine {
                    objectName: "changeoverCaution" // the steps have it at the one of now
                    text: root.changeover.caution
                    visible: root.changeover.wantsLook && text !== ""
                    width: parent.width
                }
                ChecklistPanel {
                    app: root.app
                    checklist: root.changeover.points
                    itemName: "housingPoint"
                    visible: root.changeover.wantsLook
                    width: parent.width
                }
                Label {
                    objectName: "stockText"
                    text: root.changeover.stockText
                    visible: text !== "" && !root.hasPad
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
            keys: root.changeover.keys
            leaveText: root.app.label("label.leave-as-is")

            onLeaving: root.changeover.leave()
            onPressed: say => root.changeover.press(say)
        }
    }
    Pad {
        id: pad
        app: root.app
        enabled: root.hasPad && !why.visible
        focus: root.hasPad
        height: root.isTall ? implicitHeight : root.height
        isTall: root.isTall
        visible: root.hasPad
        width: root.isTall ? root.width : implicitWidth
        x: root.isPadLeft ? 0 : root.width - pad.width
        y: root.height - pad.height

        onVisibleChanged: {
            if (pad.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    WhySkippedSheet {
        id: why
        app: root.app
        checklist: root.changeover.points
    }
}
