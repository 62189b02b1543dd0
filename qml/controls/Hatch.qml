// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A hatched box: what is expected, not what was read. The same hatch as the way ahead in the trend.
Rectangle {
    id: root

    function lines(width: real, height: real): string {
        const step = Math.max(1, Theme.gapSmall);
        let path = "";
        // A page that is just being made may give no size, or one without end.
        for (let x = -height; Number.isFinite(width) && x < width; x += step) {
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
