// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The verdict, in sight at every step: shape, word and colour, its reason with the numbers, from how warm it goes, what
/// is assumed; and the one key to go on.
Item {
    id: root

    required property AppView app
    readonly property bool isLow: root.width > root.height
    /// For a left hand the key stands at the left where it stands beside the words.
    readonly property bool isMirrored: root.isLow && Theme.isLeftHanded
    readonly property SetupView setup: root.app.setup
    readonly property VerdictView verdict: root.setup.verdict

    Panel {
        anchors.bottom: root.isLow ? parent.bottom : problem.visible ? problem.top : next.top
        anchors.bottomMargin: root.isLow ? 0 : Theme.gap
        anchors.top: parent.top
        width: root.isLow ? root.width - next.width - Theme.gap : root.width
        x: root.isMirrored ? next.width + Theme.gap : 0

        VerdictBanner {
            id: banner
            anchors.left: parent.left
            anchors.margins: parent.border.width
            anchors.right: parent.right
            anchors.top: parent.top
            verdict: root.verdict
        }
        ScrollArea {
            id: area
            anchors.bottom: parent.bottom
            anchors.left: parent.left
            anchors.margins: Theme.gap
            anchors.right: parent.right
            anchors.top: banner.bottom
            contentHeight: words.height

            Column {
                id: words
                spacing: Theme.gapSmall
                width: area.room

                CautionLine {
                    text: root.setup.problem
                    visible: root.setup.problem !== "" && Theme.isLarge
                    width: parent.width
                }
                Label {
                    font.pixelSize: Theme.textBody
                    isStrong: true
                    objectName: "verdictReason"
                    text: root.verdict.reason
                    width: parent.width
                }
                Repeater {
                    model: root.verdict.goFrom

                    delegate: Label {
                        required text

                        width: words.width
                    }
                }
                Label {
                    color: Theme.dim
                    font.pixelSize: Theme.textSmall
                    text: root.app.label("label.assumed") + " " + root.verdict.assumedShort
                    visible: root.verdict.assumedShort !== ""
                    width: parent.width
                }
            }
        }
    }
    CautionLine {
        id: problem
        anchors.bottom: next.top
        anchors.bottomMargin: Theme.gap
        objectName: "setupProblem"
        text: root.setup.problem
        visible: root.setup.problem !== "" && !Theme.isLarge
        width: root.isLow ? next.width : parent.width
        x: root.isMirrored ? 0 : root.width - width
    }
    BigKey {
        id: next
        anchors.bottom: parent.bottom
        enabled: root.setup.canGoOn
        isMain: true
        objectName: root.setup.isReady ? "startRun" : "nextStep"
        text: root.setup.nextText
        textSize: Theme.textTitle
        width: root.isLow ? Theme.setupSide : parent.width
        x: root.isMirrored ? 0 : root.width - width

        onPressed: root.setup.goOn()
    }
}
