// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// The keys of the step that stands now, side by side, in more rows where they do not fit; at the end the key to leave,
/// at their beginning for a left hand.
Item {
    id: root

    readonly property int columns: Math.max(1, Math.min(list.count, root.fitting))
    readonly property int fitting: Math.max(1, Math.floor((grid.width + Theme.gap) / (Theme.touch * 1.8 + Theme.gap)))
    property alias keys: list.model
    required property string leaveText

    signal leaving
    signal pressed(string say)

    implicitHeight: Math.max(grid.height, leave.height)

    Grid {
        id: grid
        anchors.bottom: parent.bottom
        columns: root.columns
        spacing: Theme.gap
        width: root.width - leave.width - Theme.gapLarge
        x: Theme.isLeftHanded ? leave.width + Theme.gapLarge : 0

        Repeater {
            id: list
            delegate: BigKey {
                id: key

                required isMain
                required property string say
                required text

                objectName: "key_" + key.say
                textSize: Theme.textStrong
                width: (grid.width - (root.columns - 1) * Theme.gap) / root.columns

                onPressed: root.pressed(key.say)
            }
        }
    }
    BigKey {
        id: leave
        anchors.bottom: parent.bottom
        objectName: "leave"
        text: root.leaveText
        width: Theme.padSide
        x: Theme.isLeftHanded ? 0 : root.width - width

        onPressed: root.leaving()
    }
}
