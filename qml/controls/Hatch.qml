// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A hatched box: what is expected, not what was read. The same hatch as the way ahead in the trend.
Rectangle {
    id: root

    readonly property real step: Theme.gapSmall

    function lines(width: real, height: real): string {
        let path = "";
        for (let x = -height; x < width; x += root.step) {
            const from = Math.max(0, -x);
            const to = Math.min(height, width - x);
            path += ` M${x + from} ${height - from} L${x + to} ${height - to}`;
        }
        return path;
    }

    Accessible.ignored: true
    border.color: Theme.ink
    border.width: Theme.stroke
    color: Theme.panel

    Figure {
        anchors.fill: parent

        Stroke {
            cap: Stroke.SquareCap
            line: Theme.ink
            path: root.lines(root.width, root.height)
            width: Math.max(1, Theme.stroke / 2)
        }
    }
}
