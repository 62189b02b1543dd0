// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What the choices come to, what still keeps the run from starting, and the start.
Item {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup
    property bool showsOil: false

    Column {
        anchors.left: parent.left
        anchors.right: parent.right
        spacing: Theme.gap

        OilField {
            app: root.app
            visible: root.showsOil
            width: parent.width
        }
        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.app.label("label.step-plan")
            width: parent.width
        }
        Table {
            isDense: true
            isStacked: !root.showsOil
            rows: root.setup.plan
            width: parent.width
        }
    }
    CautionLine {
        anchors.bottom: start.top
        anchors.bottomMargin: Theme.gap
        objectName: "setupProblem"
        text: root.setup.problem
        visible: root.setup.problem !== ""
        width: parent.width
    }
    BigKey {
        id: start
        anchors.bottom: parent.bottom
        enabled: root.setup.canStart
        isMain: true
        objectName: "startRun"
        text: root.app.label("label.start-run")
        textSize: Theme.textTitle
        width: parent.width

        onPressed: root.setup.start()
    }
}
