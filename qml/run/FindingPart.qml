// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One part of what stands behind a finding: a small heading and its lines. Nothing where there are none.
Column {
    id: root

    property bool isStrong: false
    required property string text
    required property string title

    visible: root.text !== ""

    Label {
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.title
        width: parent.width
    }
    Label {
        isStrong: root.isStrong
        text: root.text
        width: parent.width
    }
}
