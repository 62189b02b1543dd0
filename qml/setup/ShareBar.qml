// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// What is expected against what is allowed; a line stands at the limit.
Rectangle {
    id: root

    /// Expected ÷ allowed; above 1 the limit stands inside the bar.
    required property real fraction
    readonly property real limitAt: root.width / Math.max(1, root.fraction)

    Accessible.ignored: true
    border.color: Theme.keyLine
    border.width: Theme.stroke
    color: Theme.shade
    implicitHeight: Theme.bar

    Rectangle {
        color: root.fraction > 1 ? Theme.danger : Theme.dim
        height: parent.height - 2 * Theme.stroke
        width: (parent.width - 2 * Theme.stroke) * Math.min(1, root.fraction)
        x: Theme.stroke
        y: Theme.stroke
    }
    Rectangle {
        border.color: Theme.panel
        border.width: Theme.stroke
        color: Theme.ink
        height: parent.height + 2 * Theme.gapSmall
        width: Theme.strokeHeavy + 2 * Theme.stroke
        x: root.limitAt - width
        y: -Theme.gapSmall
    }
}
