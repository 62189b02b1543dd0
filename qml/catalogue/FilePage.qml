// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Records from a file: which file and what is in it at the left, what it would change beside. For a left hand the other
/// way round.
FocusScope {
    id: root

    required property AppView app
    readonly property FileView file: root.app.file
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.rail * (Theme.isLarge ? 2.1 : 1.7)

    focus: true

    Header {
        id: header
        app: root.app
        title: root.app.label("app.file.title")
        width: root.width
    }
    CatalogueTabs {
        id: tabs
        anchors.top: header.bottom
        anchors.topMargin: Theme.gap
        app: root.app
        width: root.width - 2 * Theme.gap
        x: Theme.gap
    }
    ScrollArea {
        id: area
        contentHeight: root.isTall ? told.y + told.height : Math.max(choices.height, told.height)
        height: Math.min(problem.visible ? problem.y : keys.y, keys.y) - Theme.gap - y
        width: root.width - 2 * Theme.gap
        x: Theme.gap
        y: tabs.y + tabs.height + Theme.gap

        Column {
            id: choices
            spacing: Theme.gap
            width: root.isTall ? area.room : root.side
            x: root.isKeysLeft ? area.room - width : 0

            Label {
                isStrong: true
                text: root.app.label("app.file.which")
                width: parent.width
            }
            ChoiceList {
                choices: root.file.files
                itemName: "file"
                moreText: root.app.label("label.more")
                places: root.isTall ? 4 : 2
                width: parent.width

                onChosen: row => root.file.chooseFile(row)
            }
            Label {
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                text: root.file.folderText
                width: parent.width
                wrapMode: Text.Wrap
            }
            Label {
                isStrong: true
                text: root.app.label("app.file.what")
                width: parent.width
            }
            ChoiceGrid {
                choices: root.file.kinds
                columns: root.isTall ? 4 : 2
                itemName: "fileKind"
                width: parent.width

                onChosen: row => root.file.chooseKind(row)
            }
        }
        Column {
            id: told
            spacing: Theme.gap
            width: root.isTall ? area.room : area.room - choices.width - Theme.gapLarge
            x: root.isTall || root.isKeysLeft ? 0 : choices.width + Theme.gapLarge
            y: root.isTall ? choices.height + Theme.gapLarge : 0

            Label {
                isStrong: true
                objectName: "fileNotice"
                text: root.file.notice
                visible: text !== ""
                width: parent.width
            }
            Label {
                objectName: "fileSummary"
                text: root.file.summary
                visible: text !== ""
                width: parent.width
            }
            FileRows {
                moreText: root.app.label("label.more")
                places: root.isTall ? 7 : 4
                rows: root.file.rows
                width: parent.width
            }
        }
    }
    CautionLine {
        id: problem
        objectName: "fileProblem"
        text: root.file.problem
        visible: root.file.problem !== ""
        width: root.isTall ? root.width - 2 * Theme.gap : root.width - keys.width - 2 * Theme.gap - Theme.gapLarge
        x: root.isKeysLeft ? keys.x + keys.width + Theme.gapLarge : Theme.gap
        y: root.isTall ? keys.y - Theme.gap - height : Math.min(keys.y + (keys.height - height) / 2, root.height - Theme.gap - height)
    }
    Row {
        id: keys
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        layoutDirection: Theme.isLeftHanded ? Qt.LeftToRight : Qt.RightToLeft
        spacing: Theme.gap
        x: Theme.isLeftHanded ? Theme.gap : root.width - width - Theme.gap

        BigKey {
            enabled: root.file.problem === ""
            isMain: true
            objectName: "fileTake"
            text: root.file.mainText
            textSize: Theme.textTitle
            width: Theme.touch * 2.4

            onPressed: root.file.take()
        }
        BigKey {
            objectName: "fileLeave"
            text: root.app.label("label.back")
            textSize: Theme.textStrong

            onPressed: root.app.showShift()
        }
    }
}
