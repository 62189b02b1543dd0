// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// The tank, open at the top, with the oil in it and its temperature.
Item {
    id: root

    property string text

    Rectangle {
        anchors.fill: parent
        anchors.topMargin: parent.height * 0.25
        color: Theme.oil1
    }
    Rectangle {
        color: Theme.ink
        height: parent.height
        width: Theme.stroke * 2
    }
    Rectangle {
        anchors.right: parent.right
        color: Theme.ink
        height: parent.height
        width: Theme.stroke * 2
    }
    Rectangle {
        anchors.bottom: parent.bottom
        color: Theme.ink
        height: Theme.stroke * 2
        width: parent.width
    }
    Label {
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gapSmall
        color: Theme.oilInk
        font.pixelSize: Theme.textStrong
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignHCenter
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: "oilText"
        text: root.text
        width: parent.width
        wrapMode: Text.NoWrap
    }
}
