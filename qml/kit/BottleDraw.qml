// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A bottle that is being drawn: the caution first, then where, how long the port runs out, the tag, how warm the oil is.
Column {
    id: root

    required property AppView app
    readonly property DrawView draw: root.app.kit.draw
    /// Where it does not stand beside the main key.
    property bool hasCaution: true
    property bool isNarrow: false

    spacing: Theme.gap

    CautionLine {
        isDense: true
        objectName: "kitCaution"
        text: root.draw.caution
        visible: root.hasCaution && text !== ""
        width: parent.width
    }
    Label {
        font.pixelSize: Theme.textSmall
        objectName: "kitHow"
        text: root.draw.howText
        width: parent.width
    }
    ChoiceGrid {
        choices: root.draw.places
        columns: 2
        itemName: "kitPlace"
        width: parent.width

        onChosen: row => root.draw.choosePlace(row)
    }
    BigKey {
        detail: root.draw.timerText
        detailSize: Theme.textStrong
        height: Theme.touch
        isMarked: root.draw.isTiming
        objectName: "kitPurge"
        repeats: true
        text: root.draw.timerKey
        width: parent.width

        onPressed: root.draw.pressTimer()
    }
    TextLine {
        hint: root.draw.tagHint
        kept: root.draw.tag
        objectName: "kitTag"
        width: parent.width
    }
    FieldList {
        columns: root.isNarrow ? 1 : 2
        fields: root.draw.fields
        itemName: "kitField"
        unitSpoken: root.app.label("label.unit")
        widens: true
        width: parent.width
    }
    ChoiceGrid {
        choices: root.draw.machines
        columns: 2
        itemName: "kitMachine"
        width: parent.width

        onChosen: row => root.draw.chooseMachine(row)
    }
    TextLine {
        hint: root.app.label("app.draw.point-hint")
        kept: root.draw.point
        objectName: "kitPoint"
        width: parent.width
    }
}
