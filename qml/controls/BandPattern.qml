// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The pattern of what cleans no tank: arrowheads for a flush, slanting bars for waste, diamonds for practice.
Rectangle {
    id: root

    property color ink
    readonly property bool isLines: root.kind === "flush"
    required property string kind
    readonly property real step: Math.max(1, Theme.gapLarge)

    function tile(x: real, y: real): string {
        const at = (right, down) => `${x + right} ${y + down} `;
        switch (root.kind) {
        case "flush":
            return "M" + at(5, 3) + "L" + at(15, 12) + at(5, 21);
        case "practice":
            return "M" + at(12, 3) + "L" + at(20, 12) + at(12, 21) + at(4, 12) + "Z";
        }
        return "M" + at(0, 24) + "L" + at(24, 0) + at(24, 12) + at(12, 24) + "Z M" + at(0, 0) + "L" + at(12, 0) + at(0, 12) + "Z";
    }

    /// The tiles of `size`, side by side and in rows.
    function tiles(width: real, height: real, size: real): string {
        let path = "";
        // A page that is just being made may give no size, or one without end.
        const isKnown = size > 0 && Number.isFinite(width) && Number.isFinite(height);
        for (let y = 0; isKnown && y * size < height; ++y) {
            for (let x = 0; x * size < width; ++x) {
                path += root.tile(24 * x, 24 * y);
            }
        }
        return path;
    }

    Accessible.ignored: true

    Figure {
        anchors.fill: parent
        grid: 24 * root.width / root.step

        Stroke {
            cap: Stroke.SquareCap
            fill: root.isLines ? "transparent" : root.ink
            join: Stroke.BevelJoin
            line: root.isLines ? root.ink : "transparent"
            path: root.tiles(root.width, root.height, root.step)
            width: 5
        }
    }
}
