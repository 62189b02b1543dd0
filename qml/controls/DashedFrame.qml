// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A frame of dashes, around a key that cannot be touched now: told from a live one by shape, in every theme.
Figure {
    id: root

    readonly property real dash: Theme.gapSmall
    readonly property real inset: Theme.stroke / 2

    /// Dashes and gaps of one length from one corner to the next.
    function side(fromX: real, fromY: real, toX: real, toY: real): string {
        const length = Math.abs(toX - fromX) + Math.abs(toY - fromY);
        if (!Number.isFinite(length)) {
            return ""; // a page that is just being made
        }
        const pieces = 2 * Math.max(1, Math.round((length / root.dash - 1) / 2)) + 1;
        let path = "";
        for (let i = 0; i < pieces; i += 2) {
            const at = i / pieces;
            const end = (i + 1) / pieces;
            path += ` M${fromX + (toX - fromX) * at} ${fromY + (toY - fromY) * at} L${fromX + (toX - fromX) * end} ${fromY + (toY - fromY) * end}`;
        }
        return path;
    }
    function sides(right: real, bottom: real): string {
        const edge = root.inset;
        return root.side(edge, edge, right, edge) + root.side(right, edge, right, bottom) + root.side(right, bottom, edge, bottom) + root.side(edge, bottom, edge, edge);
    }

    Accessible.ignored: true

    Stroke {
        cap: Stroke.SquareCap
        line: Theme.off
        path: root.sides(root.width - root.inset, root.height - root.inset)
        width: Math.max(1, Theme.stroke / 2)
    }
}
