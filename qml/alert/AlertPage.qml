// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The whole screen until somebody acts: a change limit in yellow, stop-now in red. Only its inner frame flashes.
FocusScope {
    id: root

    readonly property AlertView alert: root.app.alert
    required property AppView app
    readonly property bool isStop: root.alert.level === "stop"
    readonly property bool isTall: root.height > root.width

    anchors.fill: parent

    onVisibleChanged: {
        if (root.visible) {
            root.forceActiveFocus();
        }
    }

    Rectangle {
        anchors.fill: parent
        color: root.isStop ? Theme.danger : Theme.caution
    }
    MouseArea {
        anchors.fill: parent
    }
    Rectangle {
        id: paper
        anchors.fill: parent
        anchors.margins: Theme.frame
        color: Theme.panel
        radius: Theme.radius

        FlashingFrame {
            anchors.fill: parent
            running: root.visible
            shown: root.isStop ? Theme.danger : Theme.ink
        }
    }
    Sign {
        id: sign
        anchors.left: paper.left
        anchors.margins: Theme.frame
        anchors.top: paper.top
        kind: root.isStop ? "stop" : "caution"
        size: root.isTall ? Theme.signAlarm / 2 : Theme.signAlarm
    }
    AlertText {
        alert: root.alert
        anchors.bottom: keys.top
        anchors.left: sign.right
        anchors.margins: Theme.frame
        anchors.right: paper.right
        anchors.top: paper.top
        enabled: !root.alert.asksWhy
    }
    Grid {
        id: keys

        readonly property real cell: root.isTall ? width : (width - (shown - 1) * Theme.gap) / shown
        readonly property int shown: 1 + (main.visible ? 1 : 0) + (bypass.visible ? 1 : 0) + (silence.visible ? 1 : 0)

        anchors.bottom: paper.bottom
        anchors.left: paper.left
        anchors.margins: Theme.frame
        anchors.right: paper.right
        columns: root.isTall ? 1 : 4
        enabled: !root.alert.asksWhy
        spacing: Theme.gap

        BigKey {
            id: main
            isMain: true
            objectName: root.isStop ? "alertStopped" : "alertChange"
            text: root.app.label(root.isStop ? "label.i-stopped" : "label.change-now")
            textSize: Theme.textTitle
            visible: root.isStop || root.alert.offersChange
            width: keys.cell

            onPressed: root.isStop ? root.alert.stopped() : root.alert.changeNow()
        }
        BigKey {
            id: bypass
            objectName: "alertBypass"
            text: root.app.label("label.i-set-bypass")
            textSize: Theme.textTitle
            visible: root.alert.offersBypass
            width: keys.cell

            onPressed: root.alert.bypassed()
        }
        BigKey {
            objectName: "alertKeep"
            text: root.app.label("label.keep-running")
            textSize: Theme.textTitle
            width: keys.cell

            onPressed: root.alert.keepRunning()
        }
        BigKey {
            id: silence
            objectName: "alertSilence"
            text: root.app.label("label.silence")
            textSize: Theme.textTitle
            visible: root.alert.canBeSilenced
            width: keys.cell

            onPressed: root.alert.silence()
        }
    }
    ReasonSheet {
        app: root.app
        visible: root.alert.asksWhy
    }
}
