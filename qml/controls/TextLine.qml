// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A line of own words, typed on a keyboard.
Rectangle {
    id: root

    property string hint
    property alias text: input.text

    border.color: input.activeFocus ? Theme.act : Theme.keyLine
    border.width: input.activeFocus ? Theme.strokeHeavy : Theme.stroke
    color: Theme.key
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    TextInput {
        id: input
        Accessible.name: root.hint
        Accessible.role: Accessible.EditableText
        activeFocusOnTab: true
        anchors.fill: parent
        clip: true
        color: Theme.ink
        font.family: Theme.family
        font.pixelSize: Theme.textStrong
        maximumLength: 160
        padding: Theme.gap
        selectByMouse: true
        verticalAlignment: TextInput.AlignVCenter
    }
    Label {
        Accessible.ignored: true
        anchors.left: parent.left
        anchors.leftMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.dim
        text: root.hint
        visible: input.text === ""
    }
}
