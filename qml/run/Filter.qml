// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Shapes

/// A filter as ISO 1219-1 draws it: a square on its corner with a broken line across the flow.
Item {
    id: root
    Accessible.ignored: true
    implicitHeight: Theme.symbol * 1.1
    implicitWidth: Theme.symbol * 1.1

    Shape {
        height: 24
        scale: root.width / 24
        transformOrigin: Item.TopLeft
        width: 24

        ShapePath {
            fillColor: Theme.panel
            joinStyle: ShapePath.MiterJoin
            strokeColor: Theme.ink
            strokeWidth: 1

            PathSvg {
                path: "M12 1 L23 12 L12 23 L1 12 Z"
            }
        }
        ShapePath {
            fillColor: "transparent"
            strokeColor: Theme.ink
            strokeWidth: 1

            PathSvg {
                path: "M12 1.5 L12 4 M12 6 L12 9 M12 11 L12 14 M12 16 L12 19 M12 21 L12 22.5"
            }
        }
    }
}
