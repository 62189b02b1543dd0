// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A shut-off valve worked by hand in an upright pipe: two triangles tip to tip with a lever, after ISO 1219-1. Filled
/// when it is shut, hollow when it is open.
Item {
    id: root

    property bool isOpen

    Accessible.ignored: true
    implicitHeight: Theme.symbol * 0.46
    implicitWidth: Theme.symbol * 0.46

    Figure {
        anchors.fill: parent
        grid: 24

        Stroke {
            cap: Stroke.RoundCap
            line: Theme.ink
            path: "M12 12 L22.5 12 M22.5 8 L22.5 16"
            width: 2
        }
        Stroke {
            fill: root.isOpen ? Theme.panel : Theme.ink
            join: Stroke.RoundJoin
            line: Theme.ink
            path: "M3 1.5 L21 1.5 L12 12 Z M3 22.5 L21 22.5 L12 12 Z"
            width: 2
        }
    }
}
