// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A question over everything else: its words, and keys below. Takes touch and keyboard while it is visible.
FocusScope {
    id: root

    /// What had the keyboard before: it has it again afterwards.
    property Item before: null
    default property alias content: body.data
    /// How wide it may get.
    property real room: Theme.sheet
    /// Which part of it is shown: another is shown from its top.
    property string shows: root.title + root.text
    property string text
    property string title

    anchors.fill: parent

    onVisibleChanged: {
        if (root.visible) {
            root.before = root.Window.activeFocusItem;
            root.forceActiveFocus();
        } else if (root.before !== null) {
            root.before.forceActiveFocus();
            root.before = null;
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
        height: area.height + 2 * Theme.gapLarge
        width: Math.min(root.room * Math.max(1, Theme.textScale * 0.8), root.width - 2 * Theme.gapLarge)

        ScrollArea {
            id: area
            anchors.centerIn: parent
            contentHeight: column.height
            height: Math.min(column.height, root.height - 2 * Theme.gapLarge - 2 * Theme.gap)
            shows: root.visible + root.shows
            width: parent.width - 2 * Theme.gapLarge

            Column {
                id: column
                spacing: Theme.gapLarge
                width: area.room

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
}
