// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints an inline component as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The user's guide: its parts as keys, or one of them to be read; beside it, or below where the window is tall, the ways on.
FocusScope {
    id: root

    required property AppView app
    readonly property GuideView guide: root.app.guide
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isList: root.guide.title === ""
    readonly property bool isTall: root.height > root.width
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * (Theme.isLarge ? 3 : 2.4)

    focus: true

    Header {
        id: header
        app: root.app
        title: root.app.label("label.guide")
        width: root.width
    }
    ScrollArea {
        id: area
        contentHeight: body.height
        height: (root.isTall ? keys.y : root.height) - y - Theme.gap
        shows: root.guide.title
        width: root.isTall ? root.side : root.width - root.side - 2 * Theme.gap - Theme.gapLarge
        x: root.isKeysLeft ? root.width - area.width - Theme.gap : Theme.gap
        y: header.height + Theme.gapSmall

        Column {
            id: body
            spacing: Theme.gap
            width: area.room

            Grid {
                id: parts
                columns: root.isTall || Theme.isLarge ? 1 : 2
                spacing: Theme.gap
                visible: root.isList
                width: parent.width

                Repeater {
                    model: root.guide.parts

                    delegate: BigKey {
                        id: part

                        required property int index
                        required property string name

                        align: Text.AlignLeft
                        height: Theme.touchSmall
                        objectName: "guidePart" + part.index
                        text: part.name
                        textSize: Theme.textStrong
                        width: (parts.width - (parts.columns - 1) * Theme.gap) / parts.columns

                        onPressed: root.guide.openPart(part.index)
                    }
                }
            }
            Label {
                font.pixelSize: Theme.textTitle
                isStrong: true
                objectName: "guideTitle"
                text: root.guide.title
                visible: !root.isList
                width: parent.width
            }
            Repeater {
                model: root.guide.lines

                delegate: GuideLine {
                    width: body.width
                }
            }
        }
    }
    Grid {
        id: keys
        columns: root.isTall ? 3 : 1
        spacing: Theme.gap
        width: root.side
        x: root.isTall || root.isKeysLeft ? Theme.gap : root.width - root.side - Theme.gap
        y: root.isTall ? root.height - keys.height - Theme.gap : header.height + Theme.gapSmall

        SideKey {
            isMain: true
            objectName: "guideNext"
            text: root.app.label("label.guide-next")
            visible: root.guide.hasNext

            onPressed: root.guide.openNext()
        }
        SideKey {
            objectName: "guideList"
            text: root.app.label("label.guide-list")
            visible: !root.isList

            onPressed: root.guide.openList()
        }
        SideKey {
            objectName: "guideLeave"
            text: root.app.label("label.back")

            onPressed: root.app.leaveGuide()
        }
    }

    component SideKey: BigKey {
        textSize: Theme.textStrong
        width: (root.side - (keys.columns - 1) * Theme.gap) / keys.columns
    }
}
