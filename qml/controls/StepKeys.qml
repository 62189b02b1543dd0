// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// The keys of the step that stands now, side by side; two rows where one is too narrow.
Grid {
    id: root

    readonly property int fitting: Math.max(1, Math.floor((root.width + Theme.gap) / (Theme.touch * 2 + Theme.gap)))
    property alias keys: list.model
    readonly property int shown: Math.max(1, Math.min(list.count, root.fitting))

    signal pressed(string say)

    columns: root.shown
    spacing: Theme.gap

    Repeater {
        id: list
        delegate: BigKey {
            id: key

            required isMain
            required property string say
            required text

            objectName: "key_" + key.say
            textSize: Theme.textStrong
            width: (root.width - (root.shown - 1) * Theme.gap) / root.shown

            onPressed: root.pressed(key.say)
        }
    }
}
