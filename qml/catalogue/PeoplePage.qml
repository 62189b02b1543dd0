// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The people who may hold the tablet at the left; beside the units that the chosen one wants. For a
/// left hand the other way round.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property PeopleView people: root.app.wishes
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.rail * 1.5

    focus: true

    Header {
        id: header
        app: root.app
        title: root.app.label("label.people")
        width: root.width
    }
    ChoiceList {
        id: list
        anchors.top: header.bottom
        anchors.topMargin: Theme.gapSmall
        choices: root.people.people
        itemName: "wisher"
        moreText: root.app.label("label.more")
        places: root.isTall ? 3 : 6
        width: root.side
        x: root.isKeysLeft ? root.width - width - Theme.gap : Theme.gap

        onChosen: row => root.people.choose(row)
    }
    Label {
        color: Theme.dim
        font.pixelSize: Theme.textSmall
        text: root.app.label("app.people.names")
        visible: !root.isTall
        width: list.width
        x: list.x
        y: root.height - height - Theme.gap
    }
    ScrollArea {
        id: area
        contentHeight: column.height
        height: keys.y - y - Theme.gap
        width: root.isTall ? root.side : root.width - list.width - 2 * Theme.gap - Theme.gapLarge
        x: root.isTall || root.isKeysLeft ? Theme.gap : list.x + list.width + Theme.gapLarge
        y: root.isTall ? list.y + list.height + Theme.gap : list.y

        Column {
            id: column
            spacing: Theme.gap
            width: area.room

            PersonKeys {
                app: root.app
                isTall: root.isTall
                people: root.people
                width: parent.width
            }
            Wishes {
                app: root.app
                visible: !root.people.isNaming
                width: parent.width
            }
        }
    }
    Row {
        id: keys
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        layoutDirection: Theme.isLeftHanded ? Qt.LeftToRight : Qt.RightToLeft
        spacing: Theme.gap
        x: Theme.isLeftHanded ? Theme.gap : root.width - width - Theme.gap

        BigKey {
            enabled: root.people.problem === ""
            isMain: true
            objectName: "wishesLog"
            text: root.people.mainText
            textSize: Theme.textTitle
            width: Theme.touch * 2.2

            onPressed: root.people.log()
        }
        BigKey {
            objectName: "wishesLeave"
            text: root.app.label("label.back")
            textSize: Theme.textStrong

            onPressed: {
                if (!root.people.back()) {
                    root.app.showShift();
                }
            }
        }
        Label {
            fontSizeMode: Text.Fit
            height: Theme.touch
            horizontalAlignment: Theme.isLeftHanded ? Text.AlignLeft : Text.AlignRight
            minimumPixelSize: Theme.textLeast
            objectName: "wishesNotice"
            text: root.people.notice !== "" ? root.people.notice : root.people.problem
            verticalAlignment: Text.AlignVCenter
            width: Theme.touch * 2.4
        }
    }
}
