// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One line of the guide: its mark, if it has one, and its words. What a row of a table is about has a line above it.
Item {
    id: root

    readonly property bool isHead: root.kind === "head"
    readonly property bool isInset: root.kind === "item" || root.kind === "code"
    required property string kind
    required property string mark
    required property string plain
    required property string text

    Accessible.name: (root.mark + " " + root.plain).trim()
    Accessible.role: Accessible.StaticText
    height: words.y + words.height

    Rectangle {
        color: Theme.line
        height: Theme.stroke / 2
        visible: root.isHead
        width: root.width
    }
    Label {
        id: sign
        Accessible.ignored: true
        color: root.kind === "cell" ? Theme.dim : Theme.ink
        font.pixelSize: root.kind === "cell" ? Theme.textSmall : Theme.textBody
        text: root.mark
        visible: text !== ""
        width: root.kind === "cell" ? root.width : words.x
    }
    Label {
        id: words
        Accessible.ignored: true
        isStrong: root.isHead || root.kind === "code"
        text: root.text
        textFormat: Text.StyledText
        width: root.width - x
        x: root.isInset ? Theme.gapLarge * 1.5 * Theme.textScale : 0
        y: root.isHead ? Theme.gapSmall : root.kind === "cell" && sign.visible ? sign.height : 0
    }
}
