// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What became of the alerts of a run, the latest first: a few at a time, the earlier ones by a key.
Sheet {
    id: root

    required property AppView app
    property int page: 0
    readonly property int pages: Math.max(1, Math.ceil(list.count / root.perPage))
    readonly property int perPage: 4

    /// Wants to see which alerts are in service.
    signal service

    room: Theme.sheet * 1.3
    text: root.app.run.alertsText
    title: root.app.label("label.alert-log")

    onVisibleChanged: root.page = 0

    Repeater {
        id: list
        model: root.app.run.alertLog

        delegate: Item {
            id: line

            required property string became
            required property int index
            required property string level
            required property bool stands
            required property string text

            height: words.height
            visible: Math.floor(line.index / root.perPage) === root.page
            width: parent.width

            Sign {
                id: sign
                kind: line.level
                size: Theme.sign
            }
            Column {
                id: words
                anchors.left: sign.right
                anchors.leftMargin: Theme.gap
                anchors.right: parent.right

                Label {
                    isStrong: line.stands
                    text: line.text
                    width: parent.width
                }
                Label {
                    color: Theme.dim
                    font.pixelSize: Theme.textSmall
                    objectName: "alertBecame" + line.index
                    text: line.became
                    width: parent.width
                }
            }
        }
    }
    Flow {
        spacing: Theme.gap
        width: parent.width

        BigKey {
            height: Theme.touchSmall
            objectName: "logBack"
            text: root.app.label("label.back")
            width: Theme.touch * 1.5

            onPressed: root.visible = false
        }
        BigKey {
            detail: (root.page + 1) + " / " + root.pages
            height: Theme.touchSmall
            objectName: "logMore"
            text: root.app.label("label.earlier")
            visible: root.pages > 1
            width: Theme.touch * 1.5

            onPressed: root.page = (root.page + 1) % root.pages
        }
        BigKey {
            height: Theme.touchSmall
            objectName: "toService"
            text: root.app.label("label.service-key")
            width: Theme.touch * 2

            onPressed: root.service()
        }
    }
}
