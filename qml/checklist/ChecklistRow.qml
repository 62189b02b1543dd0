// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// One point of a checklist. That of now has its caution and its keys; one that was left out keeps its caution. An answer
/// that came at once after the one before is asked about there.
Item {
    id: root

    required property AppView app
    required property string caution
    required property ChecklistView checklist
    required property int index
    readonly property bool isDoubted: root.isNow && root.checklist.doubt !== ""
    /// Takes the keyboard where it becomes the point of now.
    property bool isFollowed: false
    required property bool isNow
    readonly property bool isOffered: root.isNow && !root.isDoubted && root.checklist.beforeText !== ""
    required property string itemName
    required property string state
    required property string stateText
    required property string text

    signal answering
    /// Its keys get the keyboard: they have to stand where they belong by then.
    signal following

    function answer(say: string) {
        root.answering();
        root.checklist.answer(say);
    }
    function follow() {
        if (root.isFollowed && root.isNow) {
            words.forceLayout();
            root.following();
            (root.isDoubted ? looked : root.isOffered ? still : done).forceActiveFocus();
        }
    }

    Accessible.name: root.text + ", " + root.stateText
    Accessible.role: Accessible.ListItem
    height: words.height + (root.isNow ? 2 * (Theme.gapSmall + Theme.strokeHeavy) : 0)

    onIsDoubtedChanged: Qt.callLater(root.follow)
    onIsNowChanged: Qt.callLater(root.follow)

    Panel {
        anchors.fill: parent
        border.color: Theme.act
        border.width: Theme.strokeHeavy
        visible: root.isNow
    }
    Sign {
        id: sign
        kind: root.state === "does-not-apply" ? "note" : root.state === "skipped" ? "left-out" : root.state
        size: Theme.sign
        x: Theme.gap
        y: words.y
    }
    Column {
        id: words
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.gapSmall
        width: root.width - x - Theme.gap
        x: sign.x + sign.width + Theme.gap

        Row {
            spacing: Theme.gap
            width: parent.width

            Label {
                Accessible.ignored: true
                color: root.state === "later" ? Theme.dim : Theme.ink
                font.pixelSize: root.isNow ? Theme.textStrong : Theme.textBody
                isStrong: root.isNow
                text: root.text
                width: parent.width * (root.isNow ? 1 : 0.62) - Theme.gap
            }
            Label {
                Accessible.ignored: true
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                isStrong: root.state === "skipped"
                text: root.stateText
                visible: !root.isNow
                width: parent.width * 0.38
            }
        }
        CautionLine {
            objectName: root.itemName + root.index + "Caution"
            text: root.caution
            visible: root.caution !== ""
            width: parent.width
        }
        CautionLine {
            kind: "unknown"
            objectName: root.isNow ? root.itemName + "Doubt" : ""
            text: root.checklist.doubt
            visible: root.isDoubted
            width: parent.width
        }
        Label {
            objectName: root.isNow ? root.itemName + "Before" : ""
            text: root.checklist.beforeText
            visible: root.isOffered
            width: parent.width
        }
        BigKey {
            id: still
            height: Theme.touch
            isMain: true
            objectName: root.isNow ? root.itemName + "Still" : ""
            text: root.app.label("app.check.still-so")
            visible: root.isOffered
            width: parent.width

            onPressed: {
                root.answering();
                root.checklist.stillSo();
            }
        }
        Row {
            spacing: Theme.gap
            visible: root.isDoubted
            width: parent.width

            BigKey {
                height: Theme.touchSmall
                objectName: root.isNow ? root.itemName + "NotYet" : ""
                text: root.app.label("app.check.not-yet")
                width: (parent.width - Theme.gap) / 2

                onPressed: root.checklist.notYet()
            }
            BigKey {
                id: looked
                height: Theme.touchSmall
                objectName: root.isNow ? root.itemName + "Looked" : ""
                text: root.app.label("app.check.looked")
                width: (parent.width - Theme.gap) / 2

                onPressed: root.checklist.looked()
            }
        }
        Row {
            spacing: Theme.gap
            visible: root.isNow && !root.isDoubted
            width: parent.width

            BigKey {
                id: done
                height: Theme.touch
                isMain: !root.isOffered
                objectName: root.itemName + root.index
                text: root.app.label("app.key.done")
                width: (parent.width - 2 * Theme.gap) / 3

                onPressed: root.answer("done")
            }
            BigKey {
                height: Theme.touch
                objectName: root.itemName + root.index + "Not"
                text: root.app.label("app.check.does-not-apply")
                width: (parent.width - 2 * Theme.gap) / 3

                onPressed: root.answer("does-not-apply")
            }
            BigKey {
                height: Theme.touch
                objectName: root.itemName + root.index + "Skip"
                text: root.app.label("app.check.skip")
                width: (parent.width - 2 * Theme.gap) / 3

                onPressed: root.answer("skipped")
            }
        }
    }
}
