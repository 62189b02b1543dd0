// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// The digits, the point and the delete key, as on the keypad of a keyboard.
Grid {
    id: root

    required property string backSpoken
    required property string pointSpoken

    signal deleted
    signal typed(string sign)

    columns: 3
    spacing: Theme.gap

    Repeater {
        model: ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0"]

        delegate: BigKey {
            id: digit

            required property string modelData

            objectName: digit.modelData === "." ? "keyPoint" : "key" + digit.modelData
            repeats: true
            spoken: digit.modelData === "." ? root.pointSpoken : digit.modelData
            text: digit.modelData
            textSize: Theme.textKey

            onPressed: root.typed(digit.modelData)
        }
    }
    BigKey {
        objectName: "keyBack"
        repeats: true
        sign: "back"
        spoken: root.backSpoken

        onPressed: root.deleted()
    }
}
