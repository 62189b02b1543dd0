// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// A start against the verdict: who, and why. Both are kept in the journal.
Sheet {
    id: root

    required property AppView app
    property int person: -1
    property string reason
    readonly property string why: root.reason !== "" ? root.reason : words.text.trim()

    signal closed

    room: Theme.sheet * 1.5
    text: root.app.label("plan.override")
    title: root.app.setup.verdict.word + ": " + root.app.setup.verdict.reason

    onVisibleChanged: {
        root.person = -1;
        root.reason = "";
        if (root.visible) {
            root.app.setup.askOverride();
        }
    }

    Label {
        isStrong: true
        text: root.app.label("label.who-starts")
        width: parent.width
    }
    Flow {
        spacing: Theme.gap
        width: parent.width

        Repeater {
            model: root.app.people

            delegate: ChoiceKey {
                id: person

                required property int index
                required property string name

                isChosen: root.person === person.index
                objectName: "overridePerson" + person.index
                text: person.name
                textSize: Theme.textStrong
                width: (parent.width - 2 * Theme.gap) / 3

                onPressed: root.person = person.index
            }
        }
    }
    Label {
        isStrong: true
        text: root.app.label("label.why-start")
        width: parent.width
    }
    Grid {
        columns: 2
        spacing: Theme.gap
        width: parent.width

        Repeater {
            model: root.app.setup.overrideReasons

            delegate: ChoiceKey {
                id: reason

                required property int index
                required text

                isChosen: root.reason === reason.text
                objectName: "overrideReason" + reason.index
                width: (parent.width - Theme.gap) / 2

                onPressed: root.reason = reason.text
            }
        }
    }
    TextLine {
        id: words
        hint: root.app.label("label.own-words")
        kept: root.app.setup.overrideWords
        objectName: "overrideWords"
        width: parent.width

        onEdited: root.reason = ""
    }
    Row {
        id: keys
        spacing: Theme.gap
        width: parent.width

        BigKey {
            objectName: "overrideBack"
            text: root.app.label("label.back")
            textSize: Theme.textStrong
            width: (keys.width - Theme.gap) / 3

            onPressed: root.closed()
        }
        BigKey {
            enabled: root.person >= 0 && root.why !== ""
            isMain: true
            objectName: "overrideKeep"
            text: root.app.label("label.keep-and-go-on")
            textSize: Theme.textStrong
            width: (keys.width - Theme.gap) * 2 / 3

            onPressed: {
                root.app.setup.startAgainst(root.person, root.why);
                root.closed();
            }
        }
    }
}
