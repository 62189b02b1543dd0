// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The loop: one thick line of oil from the tank through pump and stages back to the tank, lighter after each stage, and
/// the way past the filters.
///
/// Gauges hang where they stand on the cart and show the last logged set. Above each stage stands its column. Laid out
/// for one to four stages; from three on the gauges hang below the filters.
Item {
    id: root

    /// Where the way past the filters leaves the line: right of the pump and what stands under it.
    readonly property real bypassX: root.pumpX + Theme.symbol * 0.94
    readonly property real columnRoom: root.width - Theme.tank
    readonly property real firstX: root.bypassX + Theme.symbol * 0.23 + Theme.gapSmall + Theme.gaugeWidth / 2
    readonly property real gaugeY: root.lineY + (root.isDense ? Theme.symbol * 0.8 : Theme.pipe / 2 + Theme.stroke + Theme.dial)
    property bool hasReadings: false
    readonly property bool isDense: root.stageCount > 2
    readonly property real lastX: root.width - Theme.pipe * 2 - Theme.gap - Theme.gaugeWidth / 2
    /// Height of the line through pump and stages, and of the way back.
    readonly property real lineY: Theme.columnHeight + Theme.gapSmall + Theme.symbol * 0.55
    readonly property real pumpX: Theme.tank + Theme.symbol * 0.65
    required property string readingsText
    readonly property real returnY: root.gaugeY + Theme.gaugeHeight + Theme.gapSmall + Theme.stroke + Theme.pipe / 2
    required property RunView run
    /// One while the first is being made.
    readonly property int stageCount: Math.max(1, columns.count)
    readonly property real step: (root.lastX - root.firstX) / Math.max(2, 2 * root.stageCount)

    /// Somebody wants to see the last sets.
    signal readingsWanted

    /// Where the `place`-th of the 2N+1 places (gauge, filter, gauge, …) stands.
    function placeX(place: int): real {
        return root.firstX + place * root.step;
    }

    implicitHeight: root.returnY + Theme.gap + Theme.gapSmall

    Pipes {
        Accessible.name: root.run.wayText
        Accessible.role: Accessible.StaticText
        anchors.fill: parent
        bypassX: root.bypassX
        firstFilterX: root.placeX(1)
        lineY: root.lineY
        mode: root.run.mode
        returnY: root.returnY
        stageCount: root.stageCount
        stageStep: root.step * 2
    }
    BigKey {
        detail: root.readingsText
        enabled: root.hasReadings
        height: Math.min(Theme.columnHeight, Theme.touch)
        objectName: "toReadings"
        text: root.run.loggedText
        textSize: Theme.textSmall
        width: Theme.tank
        wrapsDetail: true

        onPressed: root.readingsWanted()
    }
    Tank {
        height: root.height - y
        text: root.run.oilText
        width: Theme.tank
        y: root.returnY - Theme.symbol * 0.8
    }
    Pump {
        text: root.run.flowText
        x: root.pumpX - width / 2
        y: root.lineY - width / 2
    }
    Repeater {
        model: root.run.gauges

        delegate: Gauge {
            id: gauge

            required property int index
            required name
            required spoken
            required unitText
            required valueText

            stem: root.gaugeY - root.lineY
            width: Math.min(Theme.gaugeWidth, root.step * 2 - Theme.gapSmall)
            x: root.placeX(gauge.index * 2) - gauge.width / 2
            y: root.lineY
        }
    }
    Repeater {
        id: columns
        model: root.run.stages

        delegate: Item {
            id: stage

            required property real aheadHigh
            required property real aheadLow
            required property real bypassAt
            required property string bypassText
            required property string correctedText
            required property string dropText
            required property string errorText
            required property real fill
            required property string forecastState
            required property string forecastText
            required property int index
            required property string level
            required property string levelText
            required property string limitText
            required property string loadingText
            required property real mark
            required property int number
            required property string spoken
            required property string title

            Filter {
                x: root.placeX(stage.index * 2 + 1) - width / 2
                y: root.lineY - height / 2
            }
            StageColumn {
                aheadHigh: stage.aheadHigh
                aheadLow: stage.aheadLow
                bypassAt: stage.bypassAt
                bypassText: stage.bypassText
                correctedText: stage.correctedText
                dropText: stage.dropText
                errorText: stage.errorText
                fill: stage.fill
                forecastState: stage.forecastState
                forecastText: stage.forecastText
                height: Theme.columnHeight
                isDense: root.isDense || Theme.isLarge
                level: stage.level
                levelText: stage.levelText
                limitText: stage.limitText
                loadingText: stage.loadingText
                mark: stage.mark
                number: stage.number
                spoken: stage.spoken
                title: stage.title
                width: root.columnRoom / root.stageCount - (root.isDense ? Theme.gapSmall : Theme.gap)
                x: root.width - root.columnRoom + stage.index * root.columnRoom / root.stageCount + (root.isDense ? Theme.gapSmall : Theme.gap)
            }
        }
    }
}
