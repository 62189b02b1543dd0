// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What stands in each stage, what it takes of today's oil, and what stands against it.
Column {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    spacing: Theme.gap

    Repeater {
        model: root.setup.stages

        delegate: Panel {
            id: stage

            required property string allowed
            required property string expected
            required property real fraction
            required property string kind
            required property string kindText
            required property string title

            Accessible.name: stage.title + ", " + stage.expected + ", " + stage.allowed + ", " + stage.kindText
            Accessible.role: Accessible.StaticText
            height: lines.height + 2 * Theme.gap
            width: root.width

            Column {
                id: lines
                anchors.left: parent.left
                anchors.margins: Theme.gap
                anchors.right: parent.right
                anchors.top: parent.top
                spacing: Theme.gap

                Label {
                    Accessible.ignored: true
                    font.pixelSize: Theme.textStrong
                    isStrong: true
                    text: stage.title
                    width: parent.width
                }
                Item {
                    height: Math.max(words.height, number.height)
                    width: parent.width

                    Label {
                        id: words
                        Accessible.ignored: true
                        anchors.verticalCenter: parent.verticalCenter
                        text: root.app.label("label.clean-today")
                        width: parent.width - number.width - Theme.gap
                    }
                    Label {
                        id: number
                        Accessible.ignored: true
                        anchors.right: parent.right
                        font.pixelSize: Theme.textTitle
                        isStrong: true
                        text: stage.expected
                        wrapMode: Text.NoWrap
                    }
                }
                ShareBar {
                    fraction: stage.fraction
                    width: parent.width
                }
                Item {
                    height: Math.max(sign.height, allowed.height)
                    width: parent.width

                    Sign {
                        id: sign
                        anchors.verticalCenter: parent.verticalCenter
                        kind: stage.kind
                    }
                    Label {
                        id: fits
                        Accessible.ignored: true
                        anchors.left: sign.right
                        anchors.leftMargin: Theme.gapSmall
                        anchors.verticalCenter: parent.verticalCenter
                        isStrong: true
                        text: stage.kindText
                        wrapMode: Text.NoWrap
                    }
                    Label {
                        id: allowed
                        Accessible.ignored: true
                        anchors.left: fits.right
                        anchors.leftMargin: Theme.gap
                        anchors.right: parent.right
                        anchors.verticalCenter: parent.verticalCenter
                        color: Theme.dim
                        horizontalAlignment: Text.AlignRight
                        text: stage.allowed
                    }
                }
            }
        }
    }
    NoteList {
        notes: root.setup.notes
        width: parent.width
    }
}
