// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// A bottle that was drawn: whether it may be held against the first one, its result, what was told of it, its label.
Column {
    id: root

    required property AppView app
    property bool isNarrow: false
    readonly property KitView kit: root.app.kit

    spacing: Theme.gap

    CautionLine {
        isDense: true
        objectName: "kitNotComparable"
        text: root.kit.compareText
        visible: !root.kit.isComparable
        width: parent.width
    }
    Label {
        objectName: "kitComparable"
        text: root.kit.compareText
        visible: root.kit.isComparable && text !== ""
        width: parent.width
    }
    FieldList {
        fields: root.kit.result.fields
        itemName: "resultField"
        unitSpoken: root.app.label("label.unit")
        widens: true
        width: parent.width
    }
    ChoiceGrid {
        choices: root.kit.result.methods
        columns: 2
        itemName: "resultMethod"
        width: parent.width

        onChosen: row => root.kit.result.chooseMethod(row)
    }
    TextLine {
        hint: root.app.label("app.result.report-hint")
        kept: root.kit.result.report
        objectName: "resultReport"
        width: parent.width
    }
    Table {
        isDense: true
        rows: root.kit.facts
        width: parent.width
    }
    PictureItem {
        Accessible.name: root.app.label("app.kit.label")
        Accessible.role: Accessible.Graphic
        height: width * 50 / 80 // a label is 80 mm by 50 mm
        image: root.kit.label
        objectName: "kitLabel"
        width: Math.min(parent.width, Theme.touch * 3)
    }
    Grid {
        columns: root.isNarrow ? 1 : 2
        spacing: Theme.gap
        width: parent.width

        Repeater {
            model: root.kit.labelKeys

            delegate: BigKey {
                id: key

                required property int index
                required property string say
                required text

                height: Theme.touchSmall
                objectName: "kitLabels" + key.index
                width: (root.width - (root.isNarrow ? 0 : Theme.gap)) / (root.isNarrow ? 1 : 2)

                onPressed: root.kit.writeLabels(key.say)
            }
        }
    }
    Label {
        isStrong: true
        objectName: "kitLabelsText"
        text: root.kit.labelsText
        visible: text !== ""
        width: parent.width
    }
}
