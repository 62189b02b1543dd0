// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The steps of a set-up, each with what was chosen and how it stands. A touch goes there.
Grid {
    id: root

    required property real keyHeight
    required property SetupView setup

    spacing: Theme.gap

    Repeater {
        model: root.setup.steps

        delegate: BigKey {
            id: step

            required detail
            required property int index
            required property bool isNow
            required property string name
            required sign
            required property string signText

            Accessible.description: step.signText + " " + step.detail
            align: Text.AlignLeft
            height: root.keyHeight
            isMarked: step.isNow
            objectName: "step" + step.index
            repeats: true
            text: (step.index + 1) + " " + step.name
            textSize: Theme.textBody
            width: (root.width - (root.columns - 1) * root.spacing) / root.columns

            onPressed: root.setup.show(step.index)
        }
    }
}
