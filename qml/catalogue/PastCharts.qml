// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// How codes, water, elements and dirt went over time, each with what it rests on under its name.
Column {
    id: root

    required property RecordView record

    spacing: Theme.gapLarge

    Repeater {
        model: root.record.charts

        delegate: Column {
            id: chart

            required property bool hasCourse
            required property int index
            required property string text
            required property string title

            spacing: Theme.gapSmall
            width: root.width

            Label {
                isStrong: true
                text: chart.title
                width: parent.width
            }
            Label {
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                objectName: "pastChartText" + chart.index
                text: chart.text
                width: parent.width
            }
            PastChartItem {
                Accessible.description: chart.text
                Accessible.name: chart.title
                Accessible.role: Accessible.Chart
                curveColors: [Theme.stage1, Theme.stage2, Theme.stage3]
                dim: Theme.dim
                family: Theme.family
                ground: Theme.panel
                height: chart.hasCourse ? Theme.textSmall * 11 : 0
                ink: Theme.ink
                line: Theme.line
                objectName: "pastChart" + chart.index
                record: root.record
                row: chart.index
                strokePx: Theme.stroke
                textPx: Theme.textSmall
                visible: chart.hasCourse
                width: parent.width
            }
        }
    }
}
