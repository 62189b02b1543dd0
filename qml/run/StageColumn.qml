// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One stage: its ΔP as a column that fills toward the change limit, with the state by colour, shape and word.
///
/// The mark above shows where ΔP would stand if the oil cooled to this run's coldest. The hatched box shows between
/// which values ΔP is expected; how it is told in words stands beside the same hatch, in two lines where one is too short:
/// the loading then stands beside ΔP. The column may run past the limit.
Item {
    id: root

    required property real aheadHigh
    required property real aheadLow
    /// Setting of the stage's bypass valve ÷ its limit; below 0: it has none that is known.
    required property real bypassAt
    required property string bypassText
    required property string correctedText
    required property string dropText
    required property string errorText
    required property real fill
    required property string forecastState
    required property string forecastText
    readonly property bool hasAhead: root.aheadHigh >= 0
    /// Little room: the number of the stage instead of its name.
    property bool isDense: false
    required property string level
    required property string levelText
    required property string limitText
    readonly property real limitX: root.width / 1.1
    required property string loadingText
    required property real mark
    required property string number
    required property string spoken
    required property string title

    Accessible.name: root.spoken
    Accessible.role: Accessible.ProgressBar

    Label {
        id: title
        Accessible.ignored: true
        anchors.baseline: drop.baseline
        color: Theme.dim
        text: root.isDense ? root.number : root.title
        wrapMode: Text.NoWrap
    }
    Label {
        id: drop
        Accessible.ignored: true
        anchors.left: title.right
        anchors.leftMargin: Theme.gap
        font.pixelSize: Theme.textTitle
        isStrong: true
        text: root.dropText
        wrapMode: Text.NoWrap
    }
    Label {
        id: error
        Accessible.ignored: true
        anchors.baseline: drop.baseline
        anchors.left: drop.right
        anchors.leftMargin: Theme.gapSmall
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.errorText
        visible: x + implicitWidth <= root.width
        wrapMode: Text.NoWrap
    }
    Label {
        Accessible.ignored: true
        anchors.baseline: drop.baseline
        anchors.right: parent.right
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.loadingText
        visible: !loading.visible && error.x + error.width + Theme.gap + implicitWidth <= root.width
        wrapMode: Text.NoWrap
    }
    Row {
        id: setting
        anchors.right: parent.right
        anchors.verticalCenter: error.verticalCenter
        spacing: Theme.gapSmall
        visible: root.bypassText !== "" && loading.visible && error.x + error.width + Theme.gap + settingMark.width + spacing + settingWords.implicitWidth <= root.width

        SettingMark {
            id: settingMark
            anchors.verticalCenter: parent.verticalCenter
            height: settingWords.height * 0.8
        }
        Label {
            id: settingWords
            Accessible.ignored: true
            color: Theme.dim
            font.pixelSize: Theme.textSmall
            text: root.bypassText
            wrapMode: Text.NoWrap
        }
    }
    Rectangle {
        id: bar
        anchors.top: drop.bottom
        anchors.topMargin: Theme.gap
        border.color: Theme.ink
        border.width: Theme.stroke
        color: Theme.shade
        height: Theme.bar
        width: root.width

        Rectangle {
            border.color: Theme.ink
            border.width: Theme.stroke
            color: root.level === "ok" ? Theme.ok : root.level === "unknown" ? Theme.dim : root.level === "stop" ? Theme.danger : Theme.caution
            height: parent.height
            visible: root.fill > 0
            width: root.limitX * root.fill
        }
        Rectangle {
            anchors.verticalCenter: parent.verticalCenter
            color: Theme.ink
            height: Theme.stroke
            visible: root.hasAhead && ahead.x > x
            width: ahead.x - x
            x: root.limitX * root.fill
        }
        Hatch {
            id: ahead

            readonly property real end: root.limitX * Math.min(1, root.aheadHigh)

            height: parent.height
            visible: root.hasAhead && root.fill < 1
            width: Math.max(Theme.gap, ahead.end - root.limitX * Math.max(root.fill, root.aheadLow))
            x: ahead.end - width
        }
    }
    Rectangle {
        anchors.bottom: bar.bottom
        anchors.bottomMargin: -Theme.gapSmall
        anchors.top: bar.top
        anchors.topMargin: -Theme.gapSmall
        color: Theme.limit
        width: Theme.strokeHeavy
        x: root.limitX - width / 2
    }
    SettingMark {
        anchors.bottom: bar.bottom
        anchors.bottomMargin: -Theme.gapSmall
        anchors.top: bar.top
        anchors.topMargin: -Theme.gapSmall
        objectName: "bypassMark" + root.number
        visible: root.bypassAt >= 0 && x + width <= root.width
        x: root.limitX * root.bypassAt - width / 2
    }
    Sign {
        anchors.bottom: bar.top
        anchors.bottomMargin: -Theme.stroke
        kind: "mark"
        size: Theme.textSmall
        visible: root.mark >= 0
        x: Math.min(root.limitX * root.mark - width / 2, root.width - width)
    }
    Sign {
        id: sign
        anchors.top: bar.bottom
        anchors.topMargin: Theme.gapSmall
        kind: root.level
        size: Theme.textStrong
    }
    Label {
        id: levelWords
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gapSmall
        anchors.right: root.isDense ? parent.right : limit.left
        anchors.rightMargin: Theme.gapSmall
        anchors.top: sign.top
        anchors.topMargin: Math.max(0, (sign.height - levelWords.implicitHeight) / 2)
        font.pixelSize: Theme.textSmall
        isStrong: true
        text: root.levelText
        wrapMode: Text.WordWrap
    }
    Label {
        id: limit
        Accessible.ignored: true
        anchors.bottom: Theme.isLarge ? parent.bottom : undefined
        anchors.verticalCenter: Theme.isLarge ? undefined : root.isDense ? loading.verticalCenter : sign.verticalCenter
        font.pixelSize: Theme.textSmall
        isStrong: true
        text: root.limitText
        wrapMode: Text.NoWrap
        x: Math.min(root.limitX - width / 2, root.width - width)
    }
    Hatch {
        id: swatch
        anchors.top: forecast.top
        anchors.topMargin: Theme.stroke
        height: Theme.textSmall
        visible: root.hasAhead
        width: sign.width
    }
    Sign {
        anchors.top: forecast.top
        kind: "unknown"
        size: Theme.textStrong
        visible: !root.hasAhead && root.forecastState === "none" && root.forecastText !== ""
    }
    Label {
        id: forecast
        Accessible.ignored: true
        anchors.left: sign.right
        anchors.leftMargin: Theme.gapSmall
        anchors.right: parent.right
        anchors.top: levelWords.lineCount > 1 ? levelWords.bottom : sign.bottom
        anchors.topMargin: Theme.gapSmall / 2
        font.pixelSize: Theme.textSmall
        fontSizeMode: Theme.isLarge ? Text.Fit : Text.FixedSize
        height: Theme.isLarge ? root.height - y - limit.implicitHeight : implicitHeight
        isStrong: true
        minimumPixelSize: Theme.textLeast
        objectName: "forecast" + root.number
        text: root.forecastText
    }
    Label {
        id: loading
        Accessible.ignored: true
        anchors.top: forecast.bottom
        anchors.topMargin: Theme.gapSmall / 2
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.loadingText
        visible: forecast.lineCount + levelWords.lineCount < 3 && !Theme.isLarge
        wrapMode: Text.NoWrap
    }
    Label {
        Accessible.ignored: true
        anchors.right: parent.right
        anchors.top: loading.top
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.correctedText
        visible: loading.visible && !root.isDense && implicitWidth + loading.implicitWidth + Theme.gapSmall <= root.width
        wrapMode: Text.NoWrap
    }

    /// Two thin lines: where the bypass valve opens. The limit is one heavy line.
    component SettingMark: Item {
        width: Theme.stroke * 3

        Rectangle {
            color: Theme.ink
            height: parent.height
            width: Theme.stroke
        }
        Rectangle {
            color: Theme.ink
            height: parent.height
            width: Theme.stroke
            x: Theme.stroke * 2
        }
    }
}
