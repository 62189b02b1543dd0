// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// One batch: done or planned, its volume, what is left of the old oil after it.
Item {
    id: root

    required property AppView app
    property bool isDone: false
    property string number
    property string rest
    property string volume

    Accessible.name: root.number + ", " + root.volume + ", " + root.rest
    Accessible.role: Accessible.ListItem
    implicitHeight: Theme.touchSmall * 0.6

    Sign {
        id: sign
        anchors.verticalCenter: parent.verticalCenter
        kind: root.isDone ? "done" : "later"
    }
    Label {
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: root.isDone ? Theme.ink : Theme.dim
        fontSizeMode: Text.HorizontalFit
        isStrong: root.isDone
        minimumPixelSize: Theme.textLeast
        text: root.number + " · " + root.volume
        width: root.width * 0.5 - x
        wrapMode: Text.NoWrap
    }
    Label {
        Accessible.ignored: true
        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        color: root.isDone ? Theme.ink : Theme.dim
        font.pixelSize: root.isDone ? Theme.textStrong : Theme.textBody
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignRight
        isStrong: root.isDone
        minimumPixelSize: Theme.textLeast
        text: root.app.label("app.flush.left-short") + " " + root.rest
        width: root.width * 0.5 - Theme.gap
        wrapMode: Text.NoWrap
    }
    Rectangle {
        anchors.bottom: parent.bottom
        color: Theme.line
        height: Theme.stroke / 2
        width: parent.width
    }
}
