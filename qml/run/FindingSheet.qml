// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What stands behind the one line: a finding with what to do, why it is said, what it is not, and what would settle it.
/// One finding at a time; the next one by its key.
Sheet {
    id: root

    required property AppView app
    /// Which of the findings is shown.
    property int current: 0

    /// Wants to see what became of the alerts.
    signal log

    room: Theme.sheet * 1.3
    shows: root.current

    onVisibleChanged: root.current = 0

    Repeater {
        id: findings
        model: root.app.run.findings

        delegate: Column {
            id: finding

            required property string act
            required property string ahead
            required property bool asksBypass
            required property string because
            required property bool canBeSo
            required property string confirm
            required property string hazard
            required property int index
            required property bool isSo
            required property string level
            required property string ruledOut
            required property string text

            spacing: Theme.gap
            visible: finding.index === root.current % Math.max(1, findings.count)
            width: parent.width

            Item {
                height: Math.max(words.implicitHeight, sign.height)
                width: parent.width

                Sign {
                    id: sign
                    anchors.verticalCenter: parent.verticalCenter
                    kind: finding.level
                    size: Theme.signLarge
                }
                Label {
                    id: words
                    anchors.left: sign.right
                    anchors.leftMargin: Theme.gap
                    anchors.right: parent.right
                    anchors.verticalCenter: parent.verticalCenter
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    objectName: "findingText" + finding.index
                    text: finding.text
                }
            }
            FindingPart {
                isStrong: true
                text: finding.act
                title: root.app.label("label.finding-do")
                width: parent.width
            }
            CautionLine {
                text: finding.hazard
                visible: finding.hazard !== ""
                width: parent.width
            }
            FindingPart {
                text: finding.because
                title: root.app.label("label.finding-because")
                width: parent.width
            }
            FindingPart {
                text: finding.ruledOut
                title: root.app.label("label.finding-ruled-out")
                width: parent.width
            }
            FindingPart {
                text: finding.confirm
                title: root.app.label("label.finding-confirm")
                width: parent.width
            }
            FindingPart {
                text: finding.ahead
                title: root.app.label("label.finding-ahead")
                width: parent.width
            }
            BigKey {
                height: Theme.touchSmall
                objectName: "findingBypass" + finding.index
                text: root.app.label("label.i-set-bypass")
                visible: finding.asksBypass
                width: parent.width

                onPressed: {
                    root.visible = false;
                    root.app.run.recordMode("bypassing");
                }
            }
            BigKey {
                enabled: !finding.isSo
                height: Theme.touchSmall
                isMarked: finding.isSo
                objectName: "findingSo" + finding.index
                sign: finding.isSo ? "done" : ""
                text: root.app.label("label.finding-so")
                visible: finding.canBeSo
                width: parent.width

                onPressed: root.app.run.confirmFinding(finding.index)
            }
        }
    }
    Label {
        objectName: "findingNone"
        text: root.app.run.lineText // what the line says, which may be a stop that was
        visible: findings.count === 0
        width: parent.width
    }
    Row {
        spacing: Theme.gap

        BigKey {
            height: Theme.touch
            objectName: "findingBack"
            text: root.app.label("label.back")
            width: Theme.touch * 1.5

            onPressed: root.visible = false
        }
        BigKey {
            detail: (root.current % Math.max(1, findings.count) + 1) + " / " + findings.count
            height: Theme.touch
            objectName: "findingNext"
            text: root.app.label("label.finding-next")
            visible: findings.count > 1
            width: Theme.touch * 1.5

            onPressed: root.current = root.current + 1
        }
        BigKey {
            height: Theme.touch
            objectName: "alertLog"
            text: root.app.label("label.alert-log")
            width: Theme.touch * 1.5

            onPressed: root.log()
        }
    }
    // Last: where what was found is long, the keys above stay in sight.
    BigKey {
        height: Theme.touchSmall
        objectName: "findingForecast"
        text: root.app.guide.forecastTitle
        width: parent.width

        onPressed: root.app.showGuideOfForecast()
    }
}
