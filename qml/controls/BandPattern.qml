// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import QtQuick.Shapes

/// The pattern of what cleans no tank: arrowheads for a flush, slanting bars for waste, diamonds for practice.
Rectangle {
    id: root

    property color ink
    required property string kind
    readonly property real step: Theme.gapLarge

    Accessible.ignored: true
    clip: true

    Repeater {
        model: Math.ceil(root.width / root.step) * Math.ceil(root.height / root.step)

        delegate: Shape {
            id: tile

            required property int index
            readonly property int perRow: Math.max(1, Math.ceil(root.width / root.step))

            height: 24
            scale: root.step / 24
            transformOrigin: Item.TopLeft
            width: 24
            x: (tile.index % tile.perRow) * root.step
            y: Math.floor(tile.index / tile.perRow) * root.step

            ShapePath {
                fillColor: root.kind === "flush" ? "transparent" : root.ink
                strokeColor: root.kind === "flush" ? root.ink : "transparent"
                strokeWidth: root.kind === "flush" ? 5 : 0

                PathSvg {
                    path: root.kind === "flush" ? "M5 3 L15 12 L5 21" : root.kind === "practice" ? "M12 3 L20 12 L12 21 L4 12 Z" : "M0 24 L24 0 L24 12 L12 24 Z M0 0 L12 0 L0 12 Z"
                }
            }
        }
    }
}
