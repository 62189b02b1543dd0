// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A sentence that informs, with its shape.
Item {
    id: root

    property string kind: "note"
    property string text

    Accessible.name: root.text
    Accessible.role: Accessible.StaticText
    implicitHeight: Math.max(sign.height, words.height)

    Sign {
        id: sign
        kind: root.kind
        visible: root.text !== ""
        x: Theme.gap
    }
    Label {
        id: words
        Accessible.ignored: true
        text: root.text
        width: root.width - x
        x: sign.x + sign.width + Theme.gap
    }
}
