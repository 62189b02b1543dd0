// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A caution where the act is: triangle and words on the caution colour.
Rectangle {
    id: root

    property string kind: "caution"
    property string text

    Accessible.name: root.text
    Accessible.role: Accessible.AlertMessage
    color: Theme.caution
    implicitHeight: Math.max(words.implicitHeight, sign.height) + 2 * Theme.gapSmall
    radius: Theme.radius

    Sign {
        id: sign
        anchors.verticalCenter: parent.verticalCenter
        isOnState: true
        kind: root.kind
        x: Theme.gap
    }
    Label {
        id: words
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.cautionInk
        isStrong: true
        text: root.text
    }
}
