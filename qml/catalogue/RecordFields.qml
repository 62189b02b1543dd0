// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What of a record can be changed. What holds now stands beside; only what is typed or chosen changes.
Column {
    id: root

    required property AppView app
    required property bool isTall
    required property RecordView record

    spacing: Theme.gap

    Item {
        height: notKnown.height
        width: parent.width

        Label {
            anchors.verticalCenter: parent.verticalCenter
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.record.name
            width: notKnown.x - Theme.gap
        }
        BigKey {
            id: notKnown
            anchors.right: parent.right
            height: Theme.touchSmall
            objectName: "recordForget"
            text: root.app.label("app.record-page.not-known")
            visible: !root.record.isNew
            width: Theme.touch * 1.4

            onPressed: root.record.forget()
        }
    }
    Label {
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.label("app.record-page.how")
        visible: !root.record.isNew
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
    ChoiceGrid {
        choices: root.record.groups
        columns: root.isTall ? 3 : 4
        itemName: "recordGroup"
        visible: root.record.hasGroups
        width: parent.width

        onChosen: row => root.record.chooseGroup(row)
    }
    FieldList {
        behindRow: root.record.behindField
        columns: 2
        fields: root.record.fields
        firstRow: root.record.firstField
        itemName: "recordField"
        unitSpoken: root.app.label("label.unit")
        width: parent.width
    }
    Label {
        isStrong: true
        text: root.record.choicesTitle
        visible: choices.visible
        width: parent.width
    }
    ChoiceList {
        id: choices
        choices: root.record.choices
        columns: 2
        itemName: "recordChoice"
        moreText: root.app.label("label.more")
        places: root.isTall ? 8 : 4
        visible: root.record.hasChoices
        width: parent.width

        onChosen: row => root.record.pick(row)
    }
}
