// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A number or sign as typed, with its name and unit. Nothing stands in it before somebody types.
Rectangle {
    id: root

    /// Large text: the name stands above the number, not beside it.
    readonly property real drop: Theme.isLarge ? root.height * 0.2 : 0

    /// What holds now, small and beside, never in the box.
    property string ghost
    property bool isActive: false
    /// So narrow that number and ghost share the room.
    readonly property bool isTight: root.ghost !== "" && root.width < Theme.touch * 1.7
    property string name
    property string problem
    property string text
    property string unit

    signal selected

    Accessible.description: root.problem !== "" ? root.problem : root.ghost
    Accessible.focusable: true
    Accessible.focused: root.isActive
    Accessible.name: root.name + " " + root.text + " " + root.unit
    Accessible.role: Accessible.EditableText
    activeFocusOnTab: true
    border.color: root.isActive ? Theme.act : Theme.keyLine
    border.width: root.isActive ? Theme.strokeHeavy : Theme.stroke
    color: root.isActive ? Theme.key : Theme.ground
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    Accessible.onPressAction: root.selected()
    onActiveFocusChanged: {
        if (root.activeFocus) {
            root.selected();
        }
    }

    Label {
        id: ghost
        Accessible.ignored: true
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gapSmall
        anchors.left: name.left
        anchors.right: root.text === "" && root.unit === "" ? parent.right : typed.left
        anchors.rightMargin: root.unit === "" ? Theme.gapSmall : 0
        color: Theme.dim
        elide: Text.ElideRight
        font.pixelSize: Theme.textSmall
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.textLeast
        text: root.ghost
        visible: root.ghost !== ""
        wrapMode: Text.NoWrap
    }
    Label {
        id: name
        Accessible.ignored: true
        anchors.left: parent.left
        anchors.leftMargin: root.isTight ? Theme.gapSmall + Theme.stroke : Theme.gap
        anchors.right: Theme.isLarge ? parent.right : typed.left
        anchors.rightMargin: Theme.gapSmall
        anchors.top: parent.top
        anchors.topMargin: Theme.gap / 2
        font.pixelSize: Theme.textBody
        fontSizeMode: Text.Fit
        height: Theme.isLarge ? root.height * 0.42 : root.height - Theme.gap - (ghost.visible ? ghost.height : 0)
        isStrong: true
        minimumPixelSize: Theme.textLeast
        text: root.name
        verticalAlignment: Text.AlignVCenter
        wrapMode: Text.WordWrap
    }
    TextMetrics {
        id: typedSize
        font.bold: true
        font.family: Theme.family
        font.pixelSize: typed.font.pixelSize
        text: root.text
    }
    Label {
        id: typed
        Accessible.ignored: true
        anchors.right: cursor.left
        anchors.rightMargin: Theme.stroke
        anchors.verticalCenter: parent.verticalCenter
        anchors.verticalCenterOffset: root.drop
        font.pixelSize: root.isTight ? Theme.textStrong : Theme.isLarge ? Theme.px(36) : Theme.textNumber
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignRight
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: root.objectName + "Text"
        text: root.text
        width: Math.min(typedSize.advanceWidth + 2, root.width * 0.5)
        wrapMode: Text.NoWrap
    }
    Rectangle {
        id: cursor
        anchors.right: unit.left
        anchors.rightMargin: Theme.gapSmall
        anchors.verticalCenter: parent.verticalCenter
        anchors.verticalCenterOffset: root.drop
        color: root.isActive ? Theme.act : "transparent"
        height: typed.font.pixelSize
        width: Theme.stroke * 1.5
    }
    Label {
        id: unit
        Accessible.ignored: true
        anchors.baseline: typed.baseline
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        color: Theme.dim
        font.pixelSize: Math.min(Theme.textBody, Theme.px(22))
        text: root.unit
        wrapMode: Text.NoWrap
    }
    MouseArea {
        anchors.fill: parent

        onClicked: root.selected()
    }
}
