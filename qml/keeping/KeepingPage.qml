// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What is kept of the record and what became of it; beside that, or below it where the window is tall, what can be done.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property KeepingView keeping: root.app.keeping
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * (Theme.isLarge ? 3 : 2.4)

    focus: true

    FocusScope {
        anchors.fill: parent
        enabled: !sheet.visible
        focus: true

        Header {
            id: header
            app: root.app
            title: root.app.label("label.keeping")
            width: root.width
        }
        ScrollArea {
            id: area
            contentHeight: told.height
            height: (root.isTall ? keys.y : root.height) - y - Theme.gap
            width: root.isTall ? root.side : root.width - root.side - 2 * Theme.gap - Theme.gapLarge
            x: root.isKeysLeft ? root.width - area.width - Theme.gap : Theme.gap
            y: header.height + Theme.gap

            Column {
                id: told
                spacing: Theme.gapLarge
                width: area.room

                NoteList {
                    notes: root.keeping.answers
                    objectName: "keepingAnswers"
                    width: parent.width
                }
                Table {
                    isStacked: Theme.isLarge
                    objectName: "keepingFacts"
                    rows: root.keeping.facts
                    width: parent.width
                }
                Label {
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    text: root.app.label("app.keeping.past")
                    visible: root.keeping.canAsk
                    width: parent.width
                }
                NoteList {
                    notes: root.keeping.past
                    objectName: "keepingPast"
                    width: parent.width
                }
            }
        }
        Column {
            id: keys
            spacing: Theme.gap
            width: root.side
            x: root.isTall || root.isKeysLeft ? Theme.gap : root.width - root.side - Theme.gap
            y: root.isTall ? root.height - keys.height - Theme.gap : header.height + Theme.gap

            BigKey {
                enabled: root.keeping.canBackUp
                isMain: true
                objectName: "keepingBackUp"
                text: root.app.label("app.keeping.back-up")
                textSize: Theme.textStrong
                width: parent.width

                onPressed: root.keeping.backUp()
            }
            BigKey {
                enabled: root.keeping.canCheck
                objectName: "keepingCheck"
                text: root.app.label("app.keeping.check")
                textSize: Theme.textStrong
                width: parent.width

                onPressed: root.keeping.check()
            }
            BigKey {
                enabled: root.keeping.canAsk
                objectName: "keepingRestore"
                text: root.app.label("app.keeping.restore")
                textSize: Theme.textStrong
                width: parent.width

                onPressed: root.keeping.askRestore()
            }
        }
    }
    RestoreSheet {
        id: sheet
        app: root.app
        visible: root.keeping.isAsking
    }
}
