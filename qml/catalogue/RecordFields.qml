// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What of a tank or cart can be changed. What holds now stands beside; only what is typed or chosen changes.
Column {
    id: root

    required property AppView app
    required property bool isTall
    required property RecordView record

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textStrong
        isStrong: true
        text: root.record.name
        width: parent.width
    }
    Label {
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.label("app.record-page.how")
        width: parent.width
    }
    Label {
        objectName: "recordEditNotice"
        text: root.record.notice
        visible: text !== ""
        width: parent.width
    }
    TextLine {
        hint: root.app.label("app.record-page.name-hint")
        objectName: "recordNewName"
        text: root.record.newName
        visible: root.record.isNew
        width: parent.width

        onTextChanged: root.record.typeName(text)
    }
    FieldList {
        columns: 2
        fields: root.record.fields
        itemName: "recordField"
        unitSpoken: root.app.label("label.unit")
        width: parent.width
    }
    Label {
        isStrong: true
        text: root.app.label("app.record-page.fluid")
        visible: fluids.visible
        width: parent.width
    }
    ChoiceGrid {
        id: fluids
        choices: root.record.fluids
        columns: 2
        itemName: "recordFluid"
        visible: root.record.hasFluids
        width: parent.width

        onChosen: row => root.record.chooseFluid(row)
    }
}
