// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// How the record gets to the site's hub; beside that, or below it where the window is tall, what can be done.
FocusScope {
    id: root

    required property AppView app
    readonly property HandoverView handover: root.app.handover
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * (Theme.isLarge ? 3 : 2.8)

    focus: true

    Header {
        id: header
        app: root.app
        title: root.app.label("label.handover")
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
                notes: root.handover.answers
                objectName: "handoverAnswers"
                width: parent.width
            }
            Table {
                isStacked: Theme.isLarge
                objectName: "handoverFacts"
                rows: root.handover.facts
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
            enabled: root.handover.canBegin
            isMain: true
            objectName: "handoverBegin"
            text: root.app.label("app.handover.begin")
            textSize: Theme.textStrong
            visible: root.handover.isEnrolled
            width: parent.width

            onPressed: root.handover.begin()
        }
        BigKey {
            objectName: "handoverSettle"
            text: root.app.label("app.handover.settle")
            textSize: Theme.textStrong
            visible: root.handover.canSettle
            width: parent.width

            onPressed: root.handover.settle()
        }
        TextLine {
            id: address
            hint: root.app.label("app.handover.address")
            objectName: "handoverAddress"
            visible: root.handover.asksEnrolment
            width: parent.width
        }
        TextLine {
            id: code
            hint: root.app.label("app.handover.code")
            objectName: "handoverCode"
            visible: root.handover.asksEnrolment
            width: parent.width
        }
        BigKey {
            enabled: root.handover.canEnrol
            isMain: !root.handover.isEnrolled
            objectName: "handoverEnrol"
            text: root.app.label("app.handover.enrol")
            textSize: Theme.textStrong
            visible: root.handover.asksEnrolment
            width: parent.width

            onPressed: root.handover.enrol(address.text, code.text)
        }
    }
}
