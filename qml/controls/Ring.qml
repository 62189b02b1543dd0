// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Shapes

/// A ring that empties: `fraction` is what is left, 1 to 0.
Item {
    id: root

    readonly property real bow: (root.width - root.thickness) / 2
    property color color: Theme.act
    property real fraction: 0
    readonly property real thickness: root.width / 11

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
    Shape {
        anchors.fill: parent

        ShapePath {
            capStyle: ShapePath.FlatCap
            fillColor: "transparent"
            strokeColor: root.color
            strokeWidth: root.thickness

            PathAngleArc {
                centerX: root.width / 2
                centerY: root.height / 2
                radiusX: root.bow
                radiusY: root.bow
                startAngle: -90
                sweepAngle: 360 * root.fraction
            }
        }
    }
}
