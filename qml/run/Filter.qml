// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A filter as ISO 1219-1 draws it: a square on its corner with a broken line across the flow.
Item {
    id: root
    Accessible.ignored: true
    implicitHeight: Theme.symbol * 1.1
    implicitWidth: Theme.symbol * 1.1

    Figure {
        anchors.fill: parent
        grid: 24

        Stroke {
            fill: Theme.panel
            line: Theme.ink
            path: "M12 1 L23 12 L12 23 L1 12 Z"
        }
        Stroke {
            cap: Stroke.SquareCap
            line: Theme.ink
            path: "M12 1.5 L12 4 M12 6 L12 9 M12 11 L12 14 M12 16 L12 19 M12 21 L12 22.5"
        }
    }
}
