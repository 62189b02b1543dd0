// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Why a point of a checklist is left out: a reason to choose, or own words. Without one it is not left out.
Sheet {
    id: root

    required property AppView app
    required property ChecklistView checklist

    text: root.checklist.nowText
    title: root.app.label("app.check.why")
    visible: root.checklist.asksWhy

    Repeater {
        model: root.checklist.reasons

        delegate: BigKey {
            id: reason

            required property int index
            required text

            height: Theme.touchSmall
            objectName: "skipReason" + reason.index
            width: parent.width

            onPressed: root.checklist.because(reason.index)
        }
    }
    TextLine {
        id: own
        hint: root.app.label("app.check.own-words")
        kept: root.checklist.ownWords
        objectName: "skipOwnWords"
        width: parent.width
    }
    Row {
        spacing: Theme.gap
        width: parent.width

        BigKey {
            height: Theme.touch
            objectName: "skipBack"
            text: root.app.label("label.back")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.checklist.noReason()
        }
        BigKey {
            enabled: own.text.trim() !== ""
            height: Theme.touch
            isMain: true
            objectName: "skipKeep"
            text: root.app.label("app.check.keep")
            width: (parent.width - Theme.gap) / 2

            onPressed: root.checklist.becauseOf(own.text)
        }
    }
}
