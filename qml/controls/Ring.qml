// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A ring that empties: `fraction` is what is left, 1 to 0.
Item {
    id: root

    readonly property real bow: (root.width - root.thickness) / 2
    property color color: Theme.act
    property real fraction: 0
    readonly property real thickness: root.width / 11

    /// From the top to the right, in bows of an eighth at most, which a curve follows to a thousandth of a pixel.
    function arc(fraction: real, centre: real, radius: real): string {
        if (fraction <= 0) {
            return "";
        }
        const count = Math.ceil(8 * fraction);
        const turn = 2 * Math.PI * fraction / count;
        const reach = 4 / 3 * Math.tan(turn / 4);
        const at = (angle, ahead) => `${centre + radius * (Math.sin(angle) + ahead * Math.cos(angle))} ${centre - radius * (Math.cos(angle) - ahead * Math.sin(angle))} `;
        let path = "M" + at(0, 0);
        for (let i = 0; i < count; ++i) {
            path += "C" + at(i * turn, reach) + at((i + 1) * turn, -reach) + at((i + 1) * turn, 0);
        }
        return path;
    }

    Accessible.ignored: true
    implicitHeight: Theme.ring
    implicitWidth: Theme.ring

    Rectangle {
        anchors.fill: parent
        border.color: Theme.keyLine
        border.width: Theme.stroke / 2
        color: Theme.shade
        radius: width / 2
    }
    Rectangle {
        anchors.fill: parent
        anchors.margins: root.thickness
        border.color: Theme.keyLine
        border.width: Theme.stroke / 2
        color: Theme.ground
        radius: width / 2
    }
    Figure {
        anchors.fill: parent

        Stroke {
            line: root.color
            path: root.arc(root.fraction, root.width / 2, root.bow)
            width: root.thickness
        }
    }
}
