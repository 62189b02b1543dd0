// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Why the run goes on in spite of an alert: one of a few reasons, kept in the journal.
Sheet {
    id: root

    required property AppView app

    title: root.app.label("label.why-keep-running")

    Repeater {
        model: root.app.alert.reasons

        delegate: BigKey {
            id: reason

            required property int index
            required text

            height: Theme.touchSmall
            objectName: "reason" + reason.index
            textSize: Theme.textStrong
            width: parent.width

            onPressed: root.app.alert.because(reason.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "reasonBack"
        text: root.app.label("label.back")
        width: parent.width

        onPressed: root.app.alert.back()
    }
}
