// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Says what was not logged, and why, or what else is to be known. What was typed stays where it is.
FocusScope {
    id: root

    required property AppView app

    anchors.left: parent.left
    anchors.right: parent.right
    anchors.top: parent.top
    height: banner.height + 2 * Theme.gap

    onVisibleChanged: {
        if (root.visible) {
            key.forceActiveFocus();
        }
    }

    // What lies behind is covered whole: half a line would look broken.
    Rectangle {
        anchors.fill: parent
        color: Theme.ground
    }
    Rectangle {
        id: banner
        Accessible.name: words.text
        Accessible.role: Accessible.AlertMessage
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        anchors.top: parent.top
        border.color: Theme.ink
        border.width: Theme.stroke
        color: Theme.caution
        height: Math.max(column.height, key.height) + 2 * Theme.gap
        radius: Theme.radius

        MouseArea {
            anchors.fill: parent
        }
        Sign {
            id: sign
            anchors.left: parent.left
            anchors.margins: Theme.gapLarge
            anchors.verticalCenter: parent.verticalCenter
            isOnState: true
            kind: "caution"
            size: Theme.signLarge
        }
        Column {
            id: column
            anchors.left: sign.right
            anchors.margins: Theme.gapLarge
            anchors.right: key.left
            anchors.verticalCenter: parent.verticalCenter

            Label {
                color: Theme.cautionInk
                font.pixelSize: Theme.textStrong
                isStrong: true
                objectName: "troubleTitle"
                text: root.app.troubleTitle
                visible: text !== ""
                width: parent.width
            }
            Label {
                id: words
                color: Theme.cautionInk
                objectName: "troubleText"
                text: root.app.trouble
                width: parent.width
            }
        }
        BigKey {
            id: key
            anchors.margins: Theme.gap
            anchors.right: parent.right
            anchors.verticalCenter: parent.verticalCenter
            height: Theme.touchSmall
            objectName: "troubleSeen"
            text: root.app.label("label.understood")
            width: Theme.touch + Theme.touchSmall

            onPressed: root.app.dismissTrouble()
        }
    }
}
