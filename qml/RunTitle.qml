// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Tank, fluid and cart of the shown run, its mode with the time, and what is on this tablet only. Three
/// lines in a row of keys: they do not grow with the text; the page says it larger.
Item {
    id: root

    required property AppView app

    Label {
        id: tank
        elide: Text.ElideRight
        font.pixelSize: Theme.px(22)
        fontSizeMode: Text.HorizontalFit
        isStrong: true
        minimumPixelSize: Theme.textLeast
        text: root.app.run.tankName
        width: root.width
        wrapMode: Text.NoWrap
    }
    Label {
        id: place
        anchors.bottom: mode.top
        color: Theme.dim
        elide: Text.ElideRight
        font.pixelSize: Theme.textLeast
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.textLeast
        text: root.app.run.fluidText + " · " + root.app.run.cartName + " · " + root.app.run.runCode
        width: root.width
        wrapMode: Text.NoWrap
    }
    Label {
        id: mode
        anchors.bottom: parent.bottom
        font.pixelSize: Theme.px(18)
        isStrong: true
        objectName: "modeText"
        text: root.app.run.modeText
    }
    Label {
        anchors.baseline: mode.baseline
        anchors.left: mode.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        color: Theme.dim
        font.pixelSize: Theme.textLeast
        fontSizeMode: Text.HorizontalFit
        horizontalAlignment: Text.AlignRight
        minimumPixelSize: Theme.textLeast
        text: root.app.run.onlyHereText
        visible: contentWidth <= width
        wrapMode: Text.NoWrap
    }
}
