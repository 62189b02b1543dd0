// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One field of the pad. What is typed stands in the box; the last logged value stands small beside it, never in it.
Rectangle {
    id: root

    property string ghost
    property bool isActive: false
    property string name
    property string problem
    property string spoken
    property string text
    property string unit

    signal selected

    Accessible.description: root.ghost
    Accessible.focusable: true
    Accessible.focused: root.isActive
    Accessible.name: root.spoken
    Accessible.role: Accessible.EditableText
    activeFocusOnTab: true
    border.color: root.isActive ? Theme.act : root.problem !== "" ? Theme.ink : Theme.keyLine
    border.width: root.isActive ? Theme.strokeHeavy : Theme.stroke
    color: root.isActive ? Theme.key : Theme.ground
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    Accessible.onPressAction: root.selected()
    onActiveFocusChanged: {
        if (root.activeFocus && !root.isActive) {
            root.selected();
        }
    }
    onIsActiveChanged: {
        if (root.isActive && root.enabled) {
            root.forceActiveFocus();
        }
    }

    Column {
        id: names
        anchors.left: parent.left
        anchors.leftMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter

        Label {
            Accessible.ignored: true
            font.pixelSize: Math.min(Theme.textBody, Theme.px(24))
            isStrong: true
            text: root.name
            wrapMode: Text.NoWrap
        }
        Label {
            Accessible.ignored: true
            color: Theme.dim
            font.pixelSize: Math.min(Theme.textSmall, Theme.px(20))
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.textLeast
            text: root.ghost
            visible: root.text === "" || !Theme.isLarge // else there is no room for what is typed
            width: Math.min(implicitWidth, root.width - unit.width - 2 * Theme.gap - 2 * Theme.gapSmall)
            wrapMode: Text.NoWrap
        }
    }
    Sign {
        anchors.left: names.right
        anchors.leftMargin: Theme.gapSmall
        anchors.verticalCenter: parent.verticalCenter
        kind: "caution"
        visible: root.problem !== ""
    }
    Label {
        Accessible.ignored: true
        anchors.left: names.right
        anchors.leftMargin: Theme.gapSmall
        anchors.right: cursor.left
        anchors.rightMargin: Theme.stroke
        anchors.verticalCenter: parent.verticalCenter
        font.pixelSize: Theme.textNumber
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignRight
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: root.objectName + "Text"
        text: root.text
        wrapMode: Text.NoWrap
    }
    Rectangle {
        id: cursor
        anchors.right: unit.left
        anchors.rightMargin: Theme.gapSmall
        anchors.verticalCenter: parent.verticalCenter
        color: root.isActive ? Theme.act : "transparent"
        height: Theme.textNumber
        width: Theme.stroke * 1.5
    }
    Label {
        id: unit
        Accessible.ignored: true
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        color: Theme.dim
        font.pixelSize: Math.min(Theme.textSmall, Theme.px(20))
        text: root.unit
        wrapMode: Text.NoWrap
    }
    MouseArea {
        anchors.fill: parent

        onClicked: root.selected()
    }
}
