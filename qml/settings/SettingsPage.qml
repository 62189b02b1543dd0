// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints an inline component as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What concerns the tablet: how its holder wants it, which alerts are in service, what is kept of the record, the
/// guide, what program this is.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property PeopleView people: root.app.wishes
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * (Theme.isLarge ? 3 : 2.4)

    focus: true

    FocusScope {
        anchors.fill: parent
        enabled: !service.visible
        focus: true

        Header {
            id: header
            app: root.app
            title: root.app.label("label.settings")
            width: root.width
        }
        ScrollArea {
            id: area
            contentHeight: told.height
            height: (root.isTall ? keys.y : root.height) - y - Theme.gap
            width: root.isTall ? root.side : root.width - root.side - 2 * Theme.gap - Theme.gapLarge
            x: root.isKeysLeft ? root.width - area.width - Theme.gap : Theme.gap
            y: header.height + Theme.gapSmall

            Column {
                id: told
                spacing: Theme.gapLarge
                width: area.room

                TabletWishes {
                    app: root.app
                    width: parent.width
                }
                BigKey {
                    height: Theme.touchSmall
                    objectName: "toGuide"
                    text: root.app.label("label.guide")
                    textSize: Theme.textStrong
                    width: parent.width

                    onPressed: root.app.showGuide()
                }
                Table {
                    isStacked: Theme.isLarge
                    objectName: "about"
                    rows: root.app.about
                    width: parent.width
                }
            }
        }
        Column {
            id: keys
            spacing: Theme.gap
            width: root.side
            x: root.isTall || root.isKeysLeft ? Theme.gap : root.width - root.side - Theme.gap
            y: root.isTall ? root.height - keys.height - Theme.gap : header.height + Theme.gapSmall

            Label {
                objectName: "wishesNotice"
                text: root.people.notice !== "" ? root.people.notice : root.people.problem
                visible: text !== ""
                width: parent.width
            }
            Grid {
                id: grid
                columns: root.isTall ? 2 : 1
                spacing: Theme.gap
                width: parent.width

                SideKey {
                    enabled: root.people.problem === ""
                    isMain: true
                    objectName: "wishesLog"
                    text: root.app.label("app.people.log")

                    onPressed: root.people.log()
                }
                SideKey {
                    detail: root.app.service.about
                    enabled: root.app.service.canChange
                    objectName: "settingsService"
                    text: root.app.label("label.alerts-in-service")

                    onPressed: service.visible = true
                }
                SideKey {
                    objectName: "toKeeping"
                    text: root.app.label("label.keeping")

                    onPressed: root.app.showKeeping()
                }
                SideKey {
                    objectName: "settingsLeave"
                    text: root.app.label("label.back")

                    onPressed: root.app.showShift()
                }
            }
        }
    }
    ServiceSheet {
        id: service
        app: root.app
        visible: false
    }

    component SideKey: BigKey {
        textSize: Theme.textStrong
        width: (root.side - (grid.columns - 1) * Theme.gap) / grid.columns
        wrapsDetail: true
    }
}
