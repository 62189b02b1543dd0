// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// What has to be heeded: a caution on its colour, what only informs on the ground. Rows: kind, text.
Column {
    id: root

    property alias notes: list.model

    spacing: Theme.gapSmall

    Repeater {
        id: list
        delegate: Item {
            id: row

            readonly property bool isLoud: row.kind === "caution" || row.kind === "no-go"
            required property string kind
            required property string text

            height: row.isLoud ? loud.height : quiet.height
            width: root.width

            CautionLine {
                id: loud
                kind: row.kind
                text: row.text
                visible: row.isLoud
                width: row.width
            }
            NoteLine {
                id: quiet
                kind: row.kind
                text: row.text
                visible: !row.isLoud
                width: row.width
            }
        }
    }
}
