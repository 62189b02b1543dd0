// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Who holds the tablet? One touch answers.
Sheet {
    id: root

    required property AppView app

    title: root.app.label("label.who-holds")

    Repeater {
        model: root.app.people

        delegate: ChoiceKey {
            id: person

            required property int index
            required property bool isHolding
            required property string name

            isChosen: person.isHolding
            objectName: "person" + person.index
            text: person.name
            textSize: Theme.textStrong
            width: parent.width

            onPressed: root.app.choosePerson(person.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "toHandOn"
        text: root.app.label("label.hand-on")
        textSize: Theme.textStrong
        visible: root.app.run.isThere && !root.app.run.isClosed && root.app.exercise === null
        width: parent.width

        onPressed: root.app.showHandOn()
    }
}
