// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Part of the time that nobody watched: how many minutes of it the oil went through the filters.
Sheet {
    id: root

    required property AppView app
    readonly property PartView part: root.app.run.part

    text: root.part.text
    title: root.app.label("app.part.title")
    visible: root.part.isUp

    Keys.onPressed: event => {
        if (event.key === Qt.Key_Backspace) {
            root.part.fields.backspace();
            event.accepted = true;
        } else if (event.key === Qt.Key_Return || event.key === Qt.Key_Enter) {
            root.part.log();
            event.accepted = true;
        } else if (event.text !== "") {
            root.part.fields.key(event.text);
            event.accepted = true;
        }
    }

    FieldList {
        fields: root.part.fields
        itemName: "partField"
        unitSpoken: root.app.label("label.unit")
        width: parent.width
    }
    Label {
        objectName: "partProblem"
        text: root.part.problem
        visible: text !== ""
        width: parent.width
    }
    FieldKeys {
        anchors.horizontalCenter: parent.horizontalCenter
        backSpoken: root.app.label("label.key-back")
        fields: root.part.fields
        pointSpoken: root.app.label("label.key-point")
    }
    BigKey {
        height: Theme.touchSmall
        isMain: true
        objectName: "partLog"
        text: root.app.label("app.part.log")
        textSize: Theme.textStrong
        width: parent.width

        onPressed: root.part.log()
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "partBack"
        text: root.app.label("label.back")
        width: parent.width

        onPressed: root.part.back()
    }
}
