// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Who there is: a new person, another name for the chosen one, or one who is offered no more; while a name is typed,
/// its line.
Column {
    id: root

    required property AppView app
    required property bool isTall
    required property PeopleView people

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textTitle
        isStrong: true
        text: root.people.name
        width: parent.width
    }
    Row {
        spacing: Theme.gap
        visible: !root.people.isNaming

        BigKey {
            height: Theme.touchSmall
            objectName: "personNew"
            text: root.app.label("app.people.new")
            width: (root.width - 2 * Theme.gap) / 3

            onPressed: root.people.tellNew()
        }
        BigKey {
            height: Theme.touchSmall
            objectName: "personRename"
            text: root.app.label("app.people.rename")
            width: (root.width - 2 * Theme.gap) / 3

            onPressed: root.people.rename()
        }
        BigKey {
            height: Theme.touchSmall
            objectName: "personService"
            text: root.people.serviceText
            width: (root.width - 2 * Theme.gap) / 3

            onPressed: root.people.changeService()
        }
    }
    TextLine {
        hint: root.app.label("app.people.name-hint")
        objectName: "personName"
        text: root.people.typedName
        visible: root.people.isNaming
        width: parent.width

        onTextChanged: root.people.typeName(text)
    }
    Label {
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.label("app.people.names")
        visible: root.people.isNaming && root.isTall
        width: parent.width
    }
}
