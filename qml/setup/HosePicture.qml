// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A tank with its two hoses: where the pump draws and where the oil comes back.
Item {
    id: root

    readonly property real back: root.row === 0 ? 80 : root.row === 1 ? 62 : 52
    readonly property real backEnd: root.row === 0 ? 34 : root.row === 1 ? 34 : 26
    readonly property real draw: root.row === 0 ? 20 : root.row === 1 ? 20 : 42
    readonly property real drawEnd: root.row === 2 ? 26 : 50
    /// 0: opposite ends; 1: same side, apart; 2: side by side or both on top.
    required property int row

    Accessible.ignored: true

    Figure {
        anchors.horizontalCenter: parent.horizontalCenter
        grid: 100
        height: width * 0.64
        width: Math.min(root.width, root.height / 0.64)

        Stroke {
            fill: Theme.oil3
            path: "M10 20 L90 20 L90 58 L10 58 Z"
        }
        Stroke {
            cap: Stroke.SquareCap
            join: Stroke.BevelJoin
            line: Theme.ink
            path: "M10 12 L10 58 L90 58 L90 12"
            width: 2.5
        }
        Stroke {
            line: Theme.oil1
            path: "M" + root.draw + " 0 L" + root.draw + " " + root.drawEnd
            width: 5
        }
        Stroke {
            line: Theme.ink
            path: "M" + root.back + " 0 L" + root.back + " " + root.backEnd
            width: 5
        }
        Stroke {
            fill: Theme.ink
            path: "M" + (root.back - 6) + " " + root.backEnd + " L" + (root.back + 6) + " " + root.backEnd + " L" + root.back + " " + (root.backEnd + 8) + " Z M" + (root.draw - 6) + " 12 L" + (root.draw + 6) + " 12 L" + root.draw + " 4 Z"
        }
    }
}
