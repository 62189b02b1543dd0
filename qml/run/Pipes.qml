// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The oil's ways: from the tank through the filters and back, lighter after each stage, and past the filters by a valve
/// behind the pump. What the oil takes has its tint and arrows; where none flows past a shut valve, the pipe is hollow.
Item {
    id: root

    /// From the tank to the pump and the valve.
    readonly property string before: `M${Theme.tank / 2} ${root.returnY} L${Theme.tank / 2} ${root.lineY} L${root.bypassX} ${root.lineY} `
    /// From the last filter round to where the way past the filters comes in.
    readonly property string behind: `M${root.filterX(root.stageCount - 1)} ${root.lineY} L${root.rightX} ${root.lineY} L${root.rightX} ${root.returnY} L${root.bypassX} ${root.returnY} `
    property real bypassX
    property real firstFilterX
    /// From there to the tank.
    readonly property string home: `M${root.bypassX} ${root.returnY} L${Theme.tank * 0.8} ${root.returnY} `
    readonly property bool isBypassing: root.mode === "bypassing"
    readonly property bool isFiltering: root.mode === "filtering"
    property real lineY
    /// stopped, bypassing or filtering.
    property string mode
    readonly property string past: `M${root.bypassX} ${root.lineY} L${root.bypassX} ${root.returnY} `
    property real returnY
    readonly property real rightX: root.width - Theme.pipe
    property int stageCount
    property real stageStep
    readonly property string through: root.toFilter + root.between(0) + root.between(1) + root.between(2) + root.behind
    readonly property list<color> tints: [Theme.oil1, Theme.oil2, Theme.oil3, Theme.oil4]
    readonly property string toFilter: `M${root.bypassX} ${root.lineY} L${root.firstFilterX} ${root.lineY} `

    /// From that filter to the next; nothing behind the last.
    function between(filter: int): string {
        return filter < root.stageCount - 1 ? `M${root.filterX(filter)} ${root.lineY} L${root.filterX(filter + 1)} ${root.lineY} ` : "";
    }
    function filterX(filter: int): real {
        return root.firstFilterX + filter * root.stageStep;
    }

    Figure {
        anchors.fill: parent

        Oil {
            line: Theme.ink
            path: root.before + root.through + root.past + root.home
            width: Theme.pipe + 2 * Theme.stroke
        }
        Oil {
            line: Theme.panel
            path: root.isBypassing ? root.through : root.past
        }
        Oil {
            line: root.tints[0]
            path: root.before + (root.isBypassing ? root.past + root.home : root.toFilter)
        }
        Oil {
            line: root.tints[1]
            path: root.isBypassing ? "" : root.between(0)
        }
        Oil {
            line: root.tints[2]
            path: root.isBypassing ? "" : root.between(1)
        }
        Oil {
            line: root.tints[3]
            path: root.isBypassing ? "" : root.between(2)
        }
        Oil {
            line: root.tints[Math.min(root.stageCount, root.tints.length - 1)]
            path: root.isBypassing ? "" : root.behind + root.home
        }
    }
    Valve {
        isOpen: root.isBypassing
        objectName: "bypassValve"
        x: root.bypassX - width / 2
        y: (root.lineY + root.returnY - height) / 2
    }
    Repeater {
        model: root.stageCount

        delegate: Arrow {
            id: ahead

            required property int index

            visible: root.isFiltering
            x: root.filterX(ahead.index) + root.stageStep * 0.28 - ahead.width / 2
            y: root.lineY - ahead.height / 2
        }
    }
    Repeater {
        model: 2

        delegate: Arrow {
            id: back

            required property int index

            rotation: 180
            visible: root.isFiltering
            x: root.bypassX + (root.rightX - root.bypassX) * (back.index + 0.5) / 2 - width / 2
            y: root.returnY - height / 2
        }
    }
    Arrow {
        rotation: 90
        visible: root.isBypassing
        x: root.bypassX - width / 2
        y: root.returnY - Theme.pipe - height
    }
    Arrow {
        rotation: 180
        visible: root.mode !== "stopped"
        x: (Theme.tank + root.bypassX - width) / 2
        y: root.returnY - height / 2
    }

    component Arrow: Sign {
        kind: "flow"
        size: Theme.sign * 0.7
    }
    component Oil: Stroke {
        cap: Stroke.SquareCap
        join: Stroke.RoundJoin
        width: Theme.pipe
    }
}
