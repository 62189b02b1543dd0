// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What can be done instead, a line each.
Column {
    id: root

    required property AppView app

    spacing: Theme.gapSmall

    Label {
        isStrong: true
        text: root.app.label("label.options")
        visible: list.count > 0
        width: parent.width
    }
    Repeater {
        id: list
        model: root.app.setup.verdict.options

        delegate: Label {
            required text

            width: root.width
        }
    }
}
