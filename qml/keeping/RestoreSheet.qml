// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What a restore does, before it is done: only who says to have read it can go on.
Sheet {
    id: root

    required property AppView app
    readonly property KeepingView keeping: root.app.keeping

    room: Theme.sheet * 1.4
    title: root.app.label("app.keeping.restore-asked")

    NoteList {
        notes: root.keeping.points
        width: parent.width
    }
    ChoiceKey {
        isChosen: root.keeping.isRead
        objectName: "restoreRead"
        text: root.app.label("app.keeping.read")
        width: parent.width

        onPressed: root.keeping.turnRead()
    }
    BigKey {
        enabled: root.keeping.isRead
        isMain: true
        objectName: "restoreNow"
        text: root.app.label("app.keeping.restore-now")
        textSize: Theme.textStrong
        width: parent.width

        onPressed: root.keeping.restore()
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "restoreBack"
        text: root.app.label("label.back")
        width: parent.width

        onPressed: root.keeping.back()
    }
}
