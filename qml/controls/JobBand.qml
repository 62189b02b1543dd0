// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// The band over a page that is no cleaning run: its word, what it is not, and its pattern at both ends.
Rectangle {
    id: root

    readonly property color ink: root.kind === "flush" ? Theme.flushInk : Theme.wasteInk
    /// What it says may take a second line.
    property bool isTall: false
    /// flush or waste.
    required property string kind
    property string text
    property string title

    Accessible.name: root.title + ". " + root.text
    Accessible.role: Accessible.Heading
    color: root.kind === "flush" ? Theme.flush : Theme.waste
    implicitHeight: root.isTall ? Math.max(Theme.band, words.implicitHeight + 2 * Theme.gapSmall) : Theme.band

    BandPattern {
        id: left
        color: root.color
        height: parent.height
        ink: root.ink
        kind: root.kind
        width: Theme.touch * 0.9
    }
    BandPattern {
        id: right
        anchors.right: parent.right
        color: root.color
        height: parent.height
        ink: root.ink
        kind: root.kind
        width: Theme.touch * 0.9
    }
    Label {
        id: title
        Accessible.ignored: true
        anchors.verticalCenter: parent.verticalCenter
        color: root.ink
        font.pixelSize: Theme.px(22)
        fontSizeMode: Text.HorizontalFit
        isStrong: true
        minimumPixelSize: Theme.textLeast
        text: root.title
        width: root.width * 0.4
        wrapMode: Text.NoWrap
        x: left.width + Theme.gap
    }
    Label {
        id: words
        Accessible.ignored: true
        anchors.left: title.left
        anchors.leftMargin: title.contentWidth + Theme.gapLarge
        anchors.right: right.left
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: root.ink
        fontSizeMode: root.isTall ? Text.FixedSize : Text.Fit
        height: root.isTall ? implicitHeight : root.height - Theme.gapSmall
        minimumPixelSize: Theme.textLeast
        text: root.text
        verticalAlignment: Text.AlignVCenter
    }
}
