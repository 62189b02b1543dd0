// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What `RunTitle` says, in one line: for where the open runs stand in its place.
Item {
    id: root

    required property AppView app

    implicitHeight: mode.height

    Label {
        id: mode
        isStrong: true
        text: root.app.run.modeText
        wrapMode: Text.NoWrap
    }
    Label {
        id: place
        anchors.baseline: mode.baseline
        anchors.left: mode.right
        anchors.leftMargin: Theme.gapLarge
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.run.tankName + " · " + root.app.run.fluidText + " · " + root.app.run.cartName
        wrapMode: Text.NoWrap
    }
    Label {
        anchors.baseline: mode.baseline
        anchors.left: place.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        color: Theme.dim
        elide: Text.ElideRight
        font.pixelSize: Theme.textSmall
        horizontalAlignment: Text.AlignRight
        text: root.app.run.onlyHereText
        wrapMode: Text.NoWrap
    }
}
