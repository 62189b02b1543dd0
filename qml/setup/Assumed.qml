// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What a verdict assumes, with where each value is from.
Column {
    id: root

    required property AppView app

    Label {
        isStrong: true
        text: root.app.label("label.assumed")
        visible: list.count > 0
        width: parent.width
    }
    Repeater {
        id: list
        model: root.app.setup.verdict.assumed

        delegate: Label {
            required text

            color: Theme.dim
            font.pixelSize: Theme.textSmall
            width: root.width
        }
    }
}
