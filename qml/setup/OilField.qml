// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The oil temperature as typed.
Rectangle {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    Accessible.name: root.setup.oilText + " " + root.setup.oilUnit
    Accessible.role: Accessible.EditableText
    border.color: Theme.act
    border.width: Theme.strokeHeavy
    color: Theme.key
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    Label {
        Accessible.ignored: true
        anchors.left: parent.left
        anchors.leftMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        font.pixelSize: Theme.textStrong
        isStrong: true
        text: root.app.label("label.step-oil")
        width: root.width * 0.6
    }
    Label {
        Accessible.ignored: true
        anchors.right: cursor.left
        anchors.rightMargin: Theme.stroke
        anchors.verticalCenter: parent.verticalCenter
        font.pixelSize: Theme.textNumber
        isStrong: true
        objectName: "oilTyped"
        text: root.setup.oilText
        wrapMode: Text.NoWrap
    }
    Rectangle {
        id: cursor
        anchors.right: unit.left
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.act
        height: Theme.textNumber
        width: Theme.stroke * 1.5
    }
    Label {
        id: unit
        Accessible.ignored: true
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.dim
        text: root.setup.oilUnit
        wrapMode: Text.NoWrap
    }
}
