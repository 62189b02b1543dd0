// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A pressure gauge as ISO 1219-1 draws it: a circle with a needle aslant.
Item {
    id: root
    Accessible.ignored: true
    implicitHeight: Theme.dial
    implicitWidth: Theme.dial

    Figure {
        anchors.fill: parent
        grid: 24

        Stroke {
            fill: Theme.panel
            line: Theme.ink
            path: "M12 1.2 C18 1.2 22.8 6 22.8 12 C22.8 18 18 22.8 12 22.8 C6 22.8 1.2 18 1.2 12 C1.2 6 6 1.2 12 1.2 Z"
            width: 2.4
        }
        Stroke {
            cap: Stroke.RoundCap
            line: Theme.ink
            path: "M7 17 L15 9"
            width: 2.2
        }
        Stroke {
            fill: Theme.ink
            path: "M18 6 L16.4 12 L12 7.6 Z"
        }
    }
}
