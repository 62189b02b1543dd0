// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import QtQuick.Shapes

/// The oil's way, a section for each tint: to the first filter, between the filters, back to the tank.
Item {
    id: root

    property real firstFilterX
    property bool isFlowing
    readonly property real lastFilterX: root.firstFilterX + (root.stageCount - 1) * root.stageStep
    property real lineY
    property real returnY
    readonly property real rightX: root.width - Theme.pipe
    property int stageCount
    property real stageStep
    readonly property list<color> tints: [Theme.oil1, Theme.oil2, Theme.oil3, Theme.oil4]

    Accessible.ignored: true

    Section {
        corners: [Qt.point(Theme.tank / 2, root.returnY), Qt.point(Theme.tank / 2, root.lineY), Qt.point(root.firstFilterX, root.lineY)]
        tint: root.tints[0]
    }
    Repeater {
        model: Math.max(0, root.stageCount - 1)

        delegate: Section {
            id: between

            required property int index

            corners: [Qt.point(root.firstFilterX + between.index * root.stageStep, root.lineY), Qt.point(root.firstFilterX + (between.index + 1) * root.stageStep, root.lineY)]
            tint: root.tints[between.index + 1]
        }
    }
    Section {
        corners: [Qt.point(root.lastFilterX, root.lineY), Qt.point(root.rightX, root.lineY), Qt.point(root.rightX, root.returnY), Qt.point(Theme.tank * 0.8, root.returnY)]
        tint: root.tints[root.stageCount]
    }
    Repeater {
        model: 3

        delegate: Sign {
            id: arrow

            required property int index

            kind: "flow"
            rotation: 180
            size: Theme.sign * 0.7
            visible: root.isFlowing
            x: Theme.tank + (root.rightX - Theme.tank) * (arrow.index + 0.5) / 3
            y: root.returnY - arrow.size / 2
        }
    }

    component Section: Shape {
        id: section

        property list<point> corners
        property color tint

        anchors.fill: parent

        ShapePath {
            fillColor: "transparent"
            joinStyle: ShapePath.RoundJoin
            strokeColor: Theme.ink
            strokeWidth: Theme.pipe + 2 * Theme.stroke

            PathPolyline {
                path: section.corners
            }
        }
        ShapePath {
            fillColor: "transparent"
            joinStyle: ShapePath.RoundJoin
            strokeColor: section.tint
            strokeWidth: Theme.pipe

            PathPolyline {
                path: section.corners
            }
        }
    }
}
