// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What the site asks for before the pump starts.
Column {
    id: root

    required property AppView app

    spacing: Theme.gap

    PointList {
        columns: 2
        itemName: "areaPoint"
        points: root.app.setup.areaPoints
        width: parent.width

        onAnswered: row => root.app.setup.answerAreaPoint(row)
    }
    CautionLine {
        text: root.app.label("app.caution.power")
        width: parent.width
    }
    CautionLine {
        text: root.app.label("app.caution.classified")
        width: parent.width
    }
    CautionLine {
        text: root.app.label("app.caution.site")
        width: parent.width
    }
}
