// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// When to read the gauges again: a ring that empties, the time, and what it means. Overdue has its shape and word.
Item {
    id: root

    required property RunView run

    Accessible.name: root.run.nextCaption + " " + root.run.nextText
    Accessible.role: Accessible.StaticText

    Ring {
        id: ring
        anchors.verticalCenter: parent.verticalCenter
        color: root.run.isOverdue ? Theme.caution : Theme.act
        fraction: root.run.isOverdue ? 1 : root.run.nextFraction
    }
    Label {
        Accessible.ignored: true
        anchors.centerIn: ring
        font.pixelSize: Theme.textTitle
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignHCenter
        isStrong: true
        minimumPixelSize: Theme.textSmall
        objectName: "nextText"
        text: root.run.nextText
        width: ring.width * 0.72
        wrapMode: Text.NoWrap
    }
    Column {
        anchors.left: ring.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.gapSmall

        Sign {
            kind: "caution"
            size: Theme.sign
            visible: root.run.isOverdue
        }
        Label {
            Accessible.ignored: true
            isStrong: root.run.isOverdue
            text: root.run.nextCaption
            width: parent.width
        }
    }
}
