// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The whole screen, in yellow, where a look does not fit the tank that was chosen or the run is at: to the right tank,
/// or on, with a reason where others have to know. There is no key that does neither.
FocusScope {
    id: root

    required property AppView app
    required property WrongTank check
    readonly property bool isTall: root.height > root.width

    anchors.fill: parent

    onVisibleChanged: {
        why.visible = false;
        if (root.visible) {
            root.forceActiveFocus();
        }
    }

    Rectangle {
        anchors.fill: parent
        color: Theme.caution
    }
    MouseArea {
        anchors.fill: parent
    }
    Rectangle {
        id: paper
        anchors.fill: parent
        anchors.margins: Theme.frame
        color: Theme.panel
        radius: Theme.radius

        FlashingFrame {
            anchors.fill: parent
            running: root.visible
            shown: Theme.ink
        }
    }
    Sign {
        id: sign
        anchors.left: paper.left
        anchors.margins: Theme.frame
        anchors.top: paper.top
        kind: "caution"
        size: root.isTall ? Theme.signAlarm / 2 : Theme.signAlarm
    }
    ScrollArea {
        id: words
        anchors.bottom: keys.top
        anchors.left: sign.right
        anchors.margins: Theme.frame
        anchors.right: paper.right
        anchors.top: paper.top
        contentHeight: column.height
        enabled: !why.visible
        shows: root.check.mismatchText

        Column {
            id: column
            spacing: Theme.gapLarge
            width: words.room

            Label {
                font.pixelSize: Theme.textTitle * 1.5
                isStrong: true
                objectName: "wrongTankTitle"
                text: root.check.mismatchTitle
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textTitle
                objectName: "wrongTankText"
                text: root.check.mismatchText
                width: parent.width
            }
        }
    }
    Grid {
        id: keys
        anchors.bottom: paper.bottom
        anchors.left: paper.left
        anchors.margins: Theme.frame
        anchors.right: paper.right
        columns: root.isTall || Theme.isLarge ? 1 : 2
        enabled: !why.visible
        spacing: Theme.gap

        BigKey {
            isMain: true
            objectName: "goToRightTank"
            text: root.check.rightText
            textSize: Theme.textTitle
            width: (keys.width - (keys.columns - 1) * Theme.gap) / keys.columns

            onPressed: root.check.goToRight()
        }
        BigKey {
            objectName: "orderIsWrong"
            text: root.check.wrongText
            textSize: Theme.textStrong
            width: (keys.width - (keys.columns - 1) * Theme.gap) / keys.columns

            onPressed: {
                if (root.check.wantsReason) {
                    root.check.askWhy();
                    why.visible = true;
                } else {
                    root.check.goOnBecause("");
                }
            }
        }
    }
    Sheet {
        id: why
        text: root.check.askText
        title: root.check.wrongText
        visible: false

        Repeater {
            model: root.check.reasons

            delegate: BigKey {
                id: reason

                required property int index
                required text

                height: Theme.touchSmall
                objectName: "wrongTankReason" + reason.index
                textSize: Theme.textStrong
                width: parent.width

                onPressed: root.check.goOnBecause(reason.text)
            }
        }
        TextLine {
            id: own
            hint: root.app.label("label.own-words")
            kept: root.check.reasonWords
            objectName: "wrongTankWords"
            width: parent.width
        }
        Row {
            spacing: Theme.gap
            width: parent.width

            BigKey {
                height: Theme.touchSmall
                objectName: "wrongTankBack"
                text: root.app.label("label.back")
                textSize: Theme.textStrong
                width: (parent.width - Theme.gap) / 3

                onPressed: why.visible = false
            }
            BigKey {
                enabled: own.text.trim() !== ""
                height: Theme.touchSmall
                objectName: "wrongTankKeep"
                text: root.app.label("app.right-tank.keep")
                textSize: Theme.textStrong
                width: (parent.width - Theme.gap) * 2 / 3

                onPressed: root.check.goOnBecause(own.text)
            }
        }
    }
}
