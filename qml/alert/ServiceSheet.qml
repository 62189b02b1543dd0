// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Which alerts of the run are in service; those that may leave have a key. Why one goes out is asked before it does.
Sheet {
    id: root

    required property AppView app
    readonly property bool asksWhy: root.service.asked !== ""
    readonly property ServiceView service: root.app.service

    room: Theme.sheet * 1.5
    text: root.asksWhy ? root.service.askedWhat : root.service.about
    title: root.asksWhy ? root.service.asked : root.app.label("label.service")

    Repeater {
        model: root.service.alerts

        delegate: Item {
            id: row

            required property int index
            required property bool isOut
            required property string keyText
            required property bool mayLeave
            required property string state
            required property string text

            height: Math.max(words.height, key.visible ? key.height : 0)
            visible: !root.asksWhy
            width: parent.width

            Sign {
                id: sign
                anchors.verticalCenter: parent.verticalCenter
                kind: row.isOut ? "no-go" : "ok"
                size: Theme.sign
            }
            Column {
                id: words
                anchors.left: sign.right
                anchors.leftMargin: Theme.gap
                anchors.right: key.left
                anchors.rightMargin: Theme.gap
                anchors.verticalCenter: parent.verticalCenter

                Label {
                    isStrong: true
                    text: row.text
                    width: parent.width
                }
                Label {
                    color: Theme.dim
                    font.pixelSize: Theme.textSmall
                    objectName: "serviceState" + row.index
                    text: row.state
                    width: parent.width
                }
            }
            BigKey {
                id: key
                anchors.right: parent.right
                anchors.verticalCenter: parent.verticalCenter
                height: Theme.touchSmall
                objectName: "service" + row.index
                spoken: row.keyText + ": " + row.text
                text: row.keyText
                visible: row.mayLeave
                width: row.mayLeave ? Theme.touch * 1.6 : 0

                onPressed: root.service.press(row.index)
            }
        }
    }
    Repeater {
        model: root.service.reasons

        delegate: BigKey {
            id: reason

            required property int index
            required text

            height: Theme.touchSmall
            objectName: "serviceReason" + reason.index
            textSize: Theme.textStrong
            visible: root.asksWhy
            width: parent.width

            onPressed: root.service.because(reason.index)
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "serviceBack"
        text: root.app.label("label.back")
        width: Theme.touch * 1.5

        onPressed: {
            if (root.asksWhy) {
                root.service.back();
            } else {
                root.visible = false;
            }
        }
    }
}
