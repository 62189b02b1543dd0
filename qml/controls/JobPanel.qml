// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What a job's page is made of: room for what is asked, the pad, what is still needed, the main key and the one to leave.
/// The keys stand under the pad, or beside it where the window is tall.
Item {
    id: root

    required property AppView app
    /// Of what the main key logs, whole beside it, however far the room is scrolled. For where the window is wide.
    property string caution
    default property alias content: area.content
    /// Of what stands in the room; what is hidden counts too, if it is not told.
    property alias contentHeight: area.contentHeight
    required property FieldsView fields
    property bool hasLeave: true
    property bool hasPad: true
    property bool isGrave: false
    readonly property bool isPadLeft: Theme.isLeftHanded && !root.isTall
    required property bool isTall
    property string leaveText: root.app.label("label.back")
    property string mainText
    /// What is still to be told; with `isGrave` what stands in the way of it.
    property string problem
    /// As wide as what stands in it may be, as high as is seen at once.
    readonly property alias room: sight
    /// Which thing is shown: another one is shown from its top.
    property alias shows: area.shows

    signal leaving
    signal pressed

    Item {
        id: sight
        height: area.height
        width: area.room
    }
    ScrollArea {
        id: area
        height: (root.hasPad && !root.isTall ? root.height : root.hasPad ? pad.y - Theme.gap : keys.y - Theme.gap) - (lines.height > 0 && !(root.isTall && root.hasPad) ? lines.height + Theme.gap : 0)
        width: root.hasPad && !root.isTall ? root.width - pad.width - Theme.gapLarge : root.width
        x: root.isPadLeft && root.hasPad ? pad.width + Theme.gapLarge : 0
    }
    FieldKeys {
        id: pad
        backSpoken: root.app.label("label.key-back")
        fields: root.fields
        pointSpoken: root.app.label("label.key-point")
        visible: root.hasPad
        x: Theme.isLeftHanded ? 0 : root.width - pad.width
        y: root.isTall ? root.height - pad.height : 0
    }
    Column {
        id: lines
        anchors.bottom: root.isTall ? keys.top : parent.bottom
        anchors.bottomMargin: root.isTall ? Theme.gap : 0
        spacing: Theme.gap
        width: root.isTall ? keys.width : root.hasPad ? area.width : root.width - keys.width - Theme.gapLarge
        x: root.isTall ? keys.x : root.isPadLeft ? keys.width + Theme.gapLarge : 0

        CautionLine {
            isDense: true
            objectName: "jobCaution"
            text: root.caution
            visible: root.caution !== ""
            width: parent.width
        }
        CautionLine {
            kind: root.isGrave ? "caution" : "note"
            objectName: "jobProblem"
            text: root.problem
            visible: root.problem !== ""
            width: parent.width
        }
    }
    Grid {
        id: keys
        anchors.bottom: parent.bottom
        columns: root.isTall && root.hasPad ? 1 : 2
        height: root.isTall && root.hasPad && root.hasLeave ? Theme.touch + Theme.gap + Theme.touchSmall : Theme.touch
        layoutDirection: Qt.RightToLeft
        spacing: Theme.gap
        width: root.isTall && root.hasPad ? root.width - pad.width - Theme.gapLarge : root.isTall ? root.width : pad.width
        x: root.isTall ? (root.hasPad && Theme.isLeftHanded ? pad.width + Theme.gapLarge : 0) : root.isPadLeft ? 0 : root.width - keys.width

        BigKey {
            enabled: root.problem === ""
            isMain: true
            objectName: "jobMain"
            text: root.mainText
            textSize: Theme.textTitle
            width: keys.width - (keys.columns === 2 && root.hasLeave ? Theme.touch + Theme.gap : 0)

            onPressed: root.pressed()
        }
        BigKey {
            height: keys.columns === 1 ? Theme.touchSmall : Theme.touch
            objectName: "jobLeave"
            text: root.leaveText
            textSize: Theme.textStrong
            visible: root.hasLeave
            width: keys.columns === 1 ? keys.width : Theme.touch

            onPressed: root.leaving()
        }
    }
}
