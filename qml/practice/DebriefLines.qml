// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// What happened when: a title, a line for each; what does not fit is passed over, the latest first.
Column {
    id: root

    property alias lines: list.model
    property string title

    clip: true
    spacing: Theme.gapSmall

    Label {
        font.pixelSize: Theme.textStrong
        isStrong: true
        text: root.title
        width: parent.width
    }
    Repeater {
        id: list
        delegate: Row {
            id: line

            required property string text
            required property string time

            spacing: Theme.gap

            Label {
                color: Theme.dim
                isStrong: true
                text: line.time
                width: line.time === "" ? 0 : Theme.touch * 0.4
            }
            Label {
                text: line.text
                width: root.width - (line.time === "" ? 0 : Theme.touch * 0.4) - Theme.gap
            }
        }
    }
}
