// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Turnovers through the filters on the way to the target: counted for sure, best, and all that could be.
Item {
    id: root

    /// What bar and words take without the line below them.
    readonly property real barRoom: words.height + remaining.height

    /// Words above and below the bar instead of beside it.
    property bool isCompact: false
    /// However wide it is, with one line of the code.
    readonly property real leastHeight: root.barRoom + (code.visible ? oneLine.implicitHeight : 0)
    /// One for each whole turnover as long as they stand apart: a run that was left open may have thousands.
    readonly property int marks: root.span * Theme.gapSmall <= bar.width ? Math.ceil(root.span) - 1 : 0
    required property RunView run
    readonly property real span: Math.max(root.run.target, root.run.turnoversHigh, 1)

    Accessible.name: root.run.turnoversText
    Accessible.role: Accessible.ProgressBar
    implicitHeight: (root.isCompact ? remaining.y + remaining.height : root.barRoom) + (code.visible ? code.height : 0)

    Label {
        id: words
        Accessible.ignored: true
        elide: Text.ElideRight
        font.pixelSize: root.isCompact ? Theme.textSmall : Theme.textBody
        isStrong: true
        objectName: "turnoversText"
        text: root.run.turnoversText
        width: root.isCompact ? root.width : implicitWidth
        wrapMode: root.isCompact ? Text.Wrap : Text.NoWrap
        x: root.isCompact ? 0 : root.width - words.width
    }
    Label {
        id: remaining
        Accessible.ignored: true
        font.pixelSize: root.isCompact ? Theme.textSmall : Theme.textBody
        text: root.run.remainingText
        width: root.isCompact ? root.width : implicitWidth
        wrapMode: root.isCompact ? Text.Wrap : Text.NoWrap
        x: root.isCompact ? 0 : root.width - remaining.width
        y: root.isCompact ? bar.y + bar.height : words.height
    }
    Label {
        id: code
        font.pixelSize: Theme.textSmall
        objectName: "codeText"
        text: root.run.codeText
        visible: text !== "" && !Theme.isLarge // the bottles' page says it in whole sentences
        width: root.width
        y: root.isCompact ? remaining.y + remaining.height : root.barRoom
    }
    Label {
        id: oneLine
        Accessible.ignored: true
        font: code.font
        text: "8"
        visible: false
    }
    Rectangle {
        id: bar
        border.color: Theme.ink
        border.width: Theme.stroke
        color: Theme.panel
        height: root.isCompact ? Theme.bar : root.barRoom
        width: root.isCompact ? root.width : root.width - Math.max(words.width, remaining.width) - Theme.gapLarge
        y: root.isCompact ? words.height : 0

        Rectangle {
            color: Theme.oil4
            height: parent.height
            width: bar.width * root.run.turnoversHigh / root.span
        }
        Rectangle {
            color: Theme.oil2
            height: parent.height
            width: bar.width * root.run.turnoversLow / root.span
        }
        Rectangle {
            color: Theme.ink
            height: parent.height
            visible: root.run.turnoversBest > 0
            width: Theme.strokeHeavy
            x: bar.width * root.run.turnoversBest / root.span - width / 2
        }
        Repeater {
            model: root.marks

            delegate: Rectangle {
                id: tick

                required property int index

                color: Theme.ink
                height: bar.height
                width: Theme.stroke / 2
                x: bar.width * (tick.index + 1) / root.span
            }
        }
        Rectangle {
            anchors.fill: parent
            border.color: Theme.ink
            border.width: Theme.stroke
            color: "transparent"
        }
    }
}
