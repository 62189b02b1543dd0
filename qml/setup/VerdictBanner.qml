// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The verdict at a glance: its shape and word on the colour of its state.
Rectangle {
    id: root

    readonly property color ink: root.verdict.level === "ok" ? Theme.okInk : root.verdict.level === "danger" ? Theme.dangerInk : root.verdict.level === "caution" ? Theme.cautionInk : Theme.ink
    required property VerdictView verdict

    Accessible.name: root.verdict.word + ". " + root.verdict.reason
    Accessible.role: Accessible.AlertMessage
    color: root.verdict.level === "ok" ? Theme.ok : root.verdict.level === "danger" ? Theme.danger : root.verdict.level === "caution" ? Theme.caution : Theme.shade
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    Sign {
        id: sign
        anchors.verticalCenter: parent.verticalCenter
        isOnState: root.verdict.level !== "none"
        kind: root.verdict.sign
        size: Theme.signLarge
        x: Theme.gap
    }
    Label {
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: root.ink
        font.pixelSize: Theme.textNumber
        fontSizeMode: Text.Fit
        height: parent.height - Theme.gap
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: "verdictWord"
        text: root.verdict.word
        verticalAlignment: Text.AlignVCenter
    }
}
