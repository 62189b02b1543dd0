// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The one line under the header: shape, words, and the keys that answer it.
Rectangle {
    id: root

    readonly property bool isCaution: root.run.lineLevel === "caution"
    readonly property bool isGrave: root.run.lineLevel === "stop"
    readonly property bool isQuiet: root.run.lineLevel === "none"
    required property RunView run
    required property string seenText
    readonly property color textColor: root.isGrave ? Theme.dangerInk : root.isCaution ? Theme.cautionInk : Theme.ink
    required property string whyText
    /// Its width where no keys to scroll stand beside it: how much it tells hangs on that alone.
    property real wide: root.width

    signal why

    Accessible.name: root.run.lineText
    Accessible.role: Accessible.AlertMessage
    border.color: root.isGrave || root.isCaution ? Theme.ink : Theme.line
    border.width: Theme.stroke
    color: root.isGrave ? Theme.danger : root.isCaution ? Theme.caution : Theme.panel
    implicitHeight: Math.max(Theme.lineHeight, words.implicitHeight + 2 * Theme.gapSmall, keys.height + 2 * Theme.gapSmall)
    radius: Theme.radius

    Sign {
        id: sign
        anchors.verticalCenter: parent.verticalCenter
        isOnState: root.isCaution || root.isGrave
        kind: root.isQuiet ? "note" : root.run.lineLevel
        size: Theme.signLarge
        visible: !root.isQuiet
        x: Theme.gap
    }
    Column {
        id: words
        anchors.left: root.isQuiet ? parent.left : sign.right
        anchors.leftMargin: Theme.gap
        anchors.right: keys.left
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter

        Label {
            id: line
            Accessible.ignored: true
            color: root.textColor
            isStrong: !root.isQuiet
            objectName: "lineText"
            text: root.run.lineText
            width: parent.width
        }
        Label {
            id: detail
            color: root.textColor
            font.pixelSize: Theme.textSmall
            text: root.run.lineDetail
            visible: text !== "" && trial.lineCount < 3 // else one touch away, with the reasons
            width: parent.width
        }
        Label {
            id: trial
            font: detail.font
            text: detail.text
            visible: false
            width: words.width + root.wide - root.width
        }
    }
    Row {
        id: keys
        anchors.right: parent.right
        anchors.rightMargin: Theme.gapSmall
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.gap

        Repeater {
            model: root.run.answers

            delegate: BigKey {
                id: answer

                required property int index
                required property string say
                required text

                edge: root.textColor
                height: Theme.touchSmall
                objectName: "answer" + answer.index
                width: Theme.touch * 0.85

                onPressed: root.run.answer(answer.say)
            }
        }
        BigKey {
            edge: root.textColor
            height: Theme.touchSmall
            objectName: "why"
            text: root.whyText
            visible: root.run.lineHasReasons
            width: Theme.touch

            onPressed: root.why()
        }
        BigKey {
            edge: root.textColor
            height: Theme.touchSmall
            objectName: "seen"
            text: root.seenText
            visible: root.run.lineCanBeAcknowledged
            width: Theme.touch

            onPressed: root.run.acknowledgeLine()
        }
    }
}
