// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The keys below what is noted: back to the notes, something beside, and the one to keep it.
Row {
    id: root

    required property AppView app
    property bool canKeep: true
    /// To keep is what is done next; to withdraw is not.
    property bool isKeepMain: true
    property string keepText: root.app.label("app.note.keep")
    property string otherText
    readonly property int places: root.otherText === "" ? 2 : 3

    signal keep
    signal other

    spacing: Theme.gap

    BigKey {
        height: Theme.touch
        objectName: "noteBack"
        text: root.app.label("label.back")
        width: (root.width - (root.places - 1) * Theme.gap) / root.places

        onPressed: root.app.notes.go(NotesView.List)
    }
    BigKey {
        height: Theme.touch
        objectName: "noteOther"
        text: root.otherText
        visible: root.otherText !== ""
        width: (root.width - (root.places - 1) * Theme.gap) / root.places

        onPressed: root.other()
    }
    BigKey {
        enabled: root.canKeep
        height: Theme.touch
        isMain: root.isKeepMain
        objectName: "noteKeep"
        text: root.keepText
        width: (root.width - (root.places - 1) * Theme.gap) / root.places

        onPressed: root.keep()
    }
}
