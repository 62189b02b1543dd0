// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// When to read the gauges again: a ring that empties, the time, and what it means. Overdue has its shape and word.
Item {
    id: root

    /// Where the time begins in it: as high as it is, it stays within.
    readonly property real inRing: ring.width * 0.14
    /// A small ring with the words beside it.
    property bool isCompact: false
    required property RunView run

    Accessible.name: root.run.nextCaption + " " + root.run.nextText
    Accessible.role: Accessible.StaticText
    implicitHeight: root.isCompact ? Math.max(ring.height, caption.implicitHeight) : ring.height

    Ring {
        id: ring
        anchors.verticalCenter: parent.verticalCenter
        color: root.run.isOverdue ? Theme.caution : Theme.act
        fraction: root.run.isOverdue ? 1 : root.run.nextFraction
        height: width
        width: root.isCompact ? Theme.textNumber : Theme.ring
    }
    Label {
        id: time
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        font.pixelSize: Theme.textTitle
        fontSizeMode: root.isCompact ? Text.HorizontalFit : Text.Fit
        height: root.isCompact ? Theme.textTitle * 1.4 : ring.width * 0.6
        horizontalAlignment: Text.AlignHCenter
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: "nextText"
        text: root.run.nextText
        verticalAlignment: Text.AlignVCenter
        width: root.isCompact ? Theme.touchLeast : ring.width - 2 * root.inRing
        wrapMode: root.isCompact ? Text.NoWrap : Text.WordWrap // "26 min" in two lines
        x: root.isCompact ? ring.width + Theme.gap : root.inRing
    }
    Grid {
        anchors.left: root.isCompact ? time.right : ring.right
        anchors.leftMargin: Theme.gapSmall / 2
        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        columns: root.isCompact ? 2 : 1
        spacing: Theme.gapSmall
        verticalItemAlignment: Grid.AlignVCenter

        Sign {
            id: sign
            kind: "caution"
            size: Theme.sign
            visible: root.run.isOverdue
        }
        Label {
            id: caption
            Accessible.ignored: true
            font.pixelSize: root.isCompact ? Theme.textLeast : Theme.px(18)
            fontSizeMode: Text.Fit
            height: root.isCompact ? implicitHeight : Math.min(implicitHeight, root.height / 1.6)
            isStrong: root.run.isOverdue
            minimumPixelSize: Theme.textLeast
            text: root.run.nextCaption
            width: parent.width - (root.isCompact && sign.visible ? sign.width + Theme.gapSmall : 0)
            wrapMode: Text.WordWrap
        }
    }
}
