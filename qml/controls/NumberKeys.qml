// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// The digits, the point and the delete key, as on the keypad of a keyboard.
Grid {
    id: root

    required property string backSpoken
    /// What the key left of the 0 types.
    property string point: "."
    required property string pointSpoken

    signal deleted
    signal typed(string sign)

    columns: 3
    spacing: Theme.gap

    Repeater {
        model: ["7", "8", "9", "4", "5", "6", "1", "2", "3", "point", "0"]

        delegate: BigKey {
            id: digit

            readonly property bool isPoint: digit.modelData === "point"
            required property string modelData

            enabled: digit.text !== ""
            objectName: digit.isPoint ? "keyPoint" : "key" + digit.modelData
            opacity: digit.text !== "" ? 1 : 0
            repeats: true
            spoken: digit.isPoint && root.point === "." ? root.pointSpoken : digit.text
            text: digit.isPoint ? root.point : digit.modelData
            textSize: Theme.textKey

            onPressed: root.typed(digit.text)
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
