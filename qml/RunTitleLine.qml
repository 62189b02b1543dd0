// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What `RunTitle` says, in one line: for where the open runs stand in its place.
Item {
    id: root

    required property AppView app

    implicitHeight: Math.max(mode.height, place.height)

    Label {
        id: mode
        isStrong: true
        text: root.app.run.modeText
        wrapMode: Text.NoWrap
    }
    Label {
        id: place
        anchors.baseline: mode.baseline
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.run.tankName + " · " + root.app.run.fluidText + " · " + root.app.run.cartName + " · " + root.app.run.runCode
        width: root.width - x
        x: mode.width + Theme.gapLarge
    }
    Label {
        anchors.baseline: mode.baseline
        anchors.right: parent.right
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.run.onlyHereText
        visible: place.x + place.contentWidth + Theme.gapLarge + implicitWidth <= root.width
        wrapMode: Text.NoWrap
    }
}
