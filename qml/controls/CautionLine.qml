// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A caution where the act is: shape and words on the colour of caution, or of danger where nobody may go on.
Rectangle {
    id: root

    readonly property bool isDanger: root.kind === "stop" || root.kind === "no-go"

    /// Several sentences beside work that goes on: smaller letters, so that the work stays in sight.
    property bool isDense: false
    readonly property bool isNote: root.kind === "note"
    property string kind: "caution"
    property string text
    readonly property color textColor: root.isDanger ? Theme.dangerInk : root.isNote ? Theme.ink : Theme.cautionInk

    Accessible.name: root.text
    Accessible.role: Accessible.AlertMessage
    border.color: Theme.line
    border.width: root.isNote ? Theme.stroke : 0
    color: root.isDanger ? Theme.danger : root.isNote ? Theme.panel : Theme.caution
    implicitHeight: Math.max(words.implicitHeight, sign.height) + 2 * Theme.gapSmall
    radius: Theme.radius

    Sign {
        id: sign
        isOnState: !root.isNote
        kind: root.kind
        x: Theme.gap
        // At the first line: the lower ones may be out of sight where a page scrolls.
        y: Math.min(words.y, (root.height - sign.height) / 2)
    }
    Label {
        id: words
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: root.textColor
        font.pixelSize: root.isDense ? Theme.textSmall : Theme.textBody
        isStrong: !root.isDense
        text: root.text
    }
}
