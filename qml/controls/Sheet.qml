// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A question over everything else: its words, and keys below. Takes touch and keyboard while it is visible.
FocusScope {
    id: root

    default property alias content: body.data
    /// How wide it may get.
    property real room: Theme.sheet
    property string text
    property string title

    anchors.fill: parent

    onVisibleChanged: {
        if (root.visible) {
            root.forceActiveFocus();
        }
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.scrim
    }
    MouseArea {
        anchors.fill: parent
    }
    Panel {
        anchors.centerIn: parent
        border.color: Theme.ink
        height: column.height + 2 * Theme.gapLarge
        width: Math.min(root.room, root.width - 2 * Theme.gapLarge)

        Column {
            id: column
            anchors.centerIn: parent
            spacing: Theme.gapLarge
            width: parent.width - 2 * Theme.gapLarge

            Label {
                font.pixelSize: Theme.textTitle
                isStrong: true
                text: root.title
                visible: root.title !== ""
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textStrong
                text: root.text
                visible: root.text !== ""
                width: parent.width
            }
            Column {
                id: body
                spacing: Theme.gap
                width: parent.width
            }
        }
    }
}
