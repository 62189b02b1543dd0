// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Why a record leaves service.
Column {
    id: root

    required property AppView app
    required property RecordView record

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textTitle
        isStrong: true
        text: root.record.name
        width: parent.width
    }
    Label {
        text: root.app.label("app.record-page.why-out")
        width: parent.width
    }
    Repeater {
        model: root.record.reasons

        delegate: BigKey {
            id: reason

            required property int index
            required text

            height: Theme.touchSmall
            objectName: "leaving" + reason.index
            textSize: Theme.textStrong
            width: root.width

            onPressed: root.record.because(reason.index)
        }
    }
}
