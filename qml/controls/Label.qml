// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// Words on a screen. Wraps, and is never wider than it is told to be.
Text {
    id: root

    property bool isStrong: false

    Accessible.name: root.text
    Accessible.role: Accessible.StaticText
    color: Theme.ink
    font.bold: root.isStrong
    font.family: Theme.family
    font.pixelSize: Theme.textBody
    textFormat: Text.PlainText
    wrapMode: Text.Wrap
}
