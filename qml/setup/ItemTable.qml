// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The items of the verdict: name, expected, allowed, whether it fits; the limiting one in a frame.
Column {
    id: root

    required property AppView app
    property alias items: list.model

    ItemRow {
        allowed: root.app.label("label.allowed")
        expected: root.app.label("label.expected")
        isHead: true
        name: ""
        visible: list.count > 0
        width: root.width
    }
    Repeater {
        id: list
        delegate: ItemRow {
            required allowed
            required expected
            required isLimiting
            required name
            required sign
            required signText
            required text

            width: root.width
        }
    }
}
