// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One item of the verdict in a line; where there are no numbers, its sentence.
Rectangle {
    id: root

    property string allowed
    property string expected
    readonly property bool hasNumbers: root.isHead || root.allowed !== "–"
    property bool isHead: false
    property bool isLimiting: false
    property string name
    property string sign
    property string signText
    property string text

    Accessible.name: root.text + " " + root.signText
    Accessible.role: Accessible.ListItem
    border.color: Theme.ink
    border.width: root.isLimiting ? Theme.stroke * 1.5 : 0
    color: root.isLimiting ? Theme.panel : "transparent"
    implicitHeight: Math.max(name.height, sentence.visible ? sentence.height : 0, expected.height, allowed.height, told.height, sign.height) + Theme.gapSmall * 1.5
    radius: Theme.radius

    Label {
        id: name
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        isStrong: root.isLimiting
        text: root.name
        width: root.width * 0.25 - Theme.gap
        x: Theme.gap
    }
    Label {
        id: expected
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        color: root.isHead ? Theme.dim : Theme.ink
        font.pixelSize: root.isHead ? Theme.textSmall : Theme.textBody
        horizontalAlignment: Text.AlignRight
        isStrong: !root.isHead
        text: root.expected
        visible: root.hasNumbers
        width: root.width * 0.23
        x: root.width * 0.25
    }
    Label {
        id: allowed
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        color: root.isHead ? Theme.dim : Theme.ink
        font.pixelSize: root.isHead ? Theme.textSmall : Theme.textBody
        horizontalAlignment: Text.AlignRight
        text: root.allowed
        visible: root.hasNumbers
        width: root.width * 0.23
        x: root.width * 0.48
    }
    Label {
        id: sentence
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.text
        visible: !root.hasNumbers
        width: root.width * 0.46
        x: root.width * 0.25
    }
    Sign {
        id: sign
        anchors.verticalCenter: parent.verticalCenter
        kind: root.sign
        visible: !root.isHead
        x: root.width * 0.74
    }
    Label {
        id: told
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        font.pixelSize: Theme.textSmall
        isStrong: root.isLimiting
        text: root.signText
        width: root.width - x - Theme.gapSmall
        x: sign.x + sign.width + Theme.gapSmall
    }
}
