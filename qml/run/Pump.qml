// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A pump as ISO 1219-1 draws it: a circle, and a filled triangle that points the way of the oil.
Item {
    id: root

    property string text

    implicitHeight: circle.height + flow.height
    implicitWidth: Theme.symbol * 0.9

    Rectangle {
        id: circle
        border.color: Theme.ink
        border.width: Theme.stroke * 1.5
        color: Theme.panel
        height: root.width
        radius: width / 2
        width: root.width
    }
    Figure {
        grid: 24
        height: root.width
        width: root.width

        Stroke {
            fill: Theme.ink
            path: "M15 6 L23.2 12 L15 18 Z"
        }
    }
    Label {
        id: flow
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.top: circle.bottom
        anchors.topMargin: Theme.gapSmall
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignHCenter
        minimumPixelSize: Theme.textLeast
        text: root.text
        width: Math.max(root.width, Theme.symbol * 1.3)
        wrapMode: Text.NoWrap
    }
}
