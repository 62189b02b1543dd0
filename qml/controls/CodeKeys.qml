// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// The signs that stand in codes, and the delete key: small keys, as many of them as a code may need.
Grid {
    id: root

    required property string backSpoken
    readonly property real keyWidth: (root.width - (root.columns - 1) * root.spacing) / root.columns

    signal deleted
    signal typed(string sign)

    columns: 7
    spacing: Theme.gap

    Repeater {
        model: Array.from("0123456789ABCDEFGHJKMNPQRSTVWXYZ")

        delegate: BigKey {
            id: key

            required property string modelData

            height: Theme.touchLeast
            objectName: "code" + key.modelData
            repeats: true
            text: key.modelData
            textSize: Theme.textTitle
            width: root.keyWidth

            onPressed: root.typed(key.text)
        }
    }
    BigKey {
        height: Theme.touchLeast
        objectName: "codeBack"
        repeats: true
        sign: "back"
        spoken: root.backSpoken
        width: root.keyWidth

        onPressed: root.deleted()
    }
}
