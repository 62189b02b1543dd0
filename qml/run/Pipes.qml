// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The oil's way, a section for each tint: to the first filter, between the filters, back to the tank.
Item {
    id: root

    /// From the tank to the first filter, and from the last one to the tank.
    readonly property string before: `M${Theme.tank / 2} ${root.returnY} L${Theme.tank / 2} ${root.lineY} L${root.firstFilterX} ${root.lineY} `
    readonly property string behind: `M${root.lastFilterX} ${root.lineY} L${root.rightX} ${root.lineY} L${root.rightX} ${root.returnY} L${Theme.tank * 0.8} ${root.returnY} `
    property real firstFilterX
    property bool isFlowing
    readonly property real lastFilterX: root.firstFilterX + (root.stageCount - 1) * root.stageStep
    property real lineY
    property real returnY
    readonly property real rightX: root.width - Theme.pipe
    property int stageCount
    property real stageStep
    readonly property list<color> tints: [Theme.oil1, Theme.oil2, Theme.oil3, Theme.oil4]

    /// From that filter to the next; nothing behind the last.
    function between(filter: int): string {
        const x = root.firstFilterX + filter * root.stageStep;
        return filter < root.stageCount - 1 ? `M${x} ${root.lineY} L${x + root.stageStep} ${root.lineY} ` : "";
    }

    Accessible.ignored: true

    Figure {
        anchors.fill: parent

        Rim {
            path: root.before + root.between(0) + root.between(1) + root.behind
        }
        Oil {
            line: root.tints[0]
            path: root.before
        }
        Oil {
            line: root.tints[1]
            path: root.between(0)
        }
        Oil {
            line: root.tints[2]
            path: root.between(1)
        }
        Oil {
            line: root.tints[root.stageCount]
            path: root.behind
        }
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

    component Oil: Stroke {
        cap: Stroke.SquareCap
        join: Stroke.RoundJoin
        width: Theme.pipe
    }
    component Rim: Stroke {
        cap: Stroke.SquareCap
        join: Stroke.RoundJoin
        line: Theme.ink
        width: Theme.pipe + 2 * Theme.stroke
    }
}
