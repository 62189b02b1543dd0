// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Part of the time that nobody watched: how many minutes of it the oil went through the filters.
Sheet {
    id: root

    required property AppView app
    readonly property bool isTall: root.height > root.width
    readonly property PartView part: root.app.run.part

    room: root.isTall ? Theme.sheet : Theme.sheet * 1.3
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

    Grid {
        id: sides

        readonly property real side: root.isTall ? width : width - pad.width - spacing

        columns: root.isTall ? 1 : 2
        horizontalItemAlignment: root.isTall ? Grid.AlignHCenter : Grid.AlignLeft
        spacing: Theme.gapLarge
        width: parent.width

        Column {
            spacing: Theme.gap
            width: sides.side

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
            BigKey {
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
        FieldKeys {
            id: pad
            backSpoken: root.app.label("label.key-back")
            fields: root.part.fields
            pointSpoken: root.app.label("label.key-point")
        }
    }
}
