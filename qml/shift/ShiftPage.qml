// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Where a shift begins: today's runs and jobs, how tanks and carts stand, and the keys to everything else; one above the
/// other where the window is tall.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property real side: root.isTall ? root.width - 2 * Theme.gap : Theme.touch * 2 + Theme.gap + (Theme.isLarge ? Theme.touchSmall + Theme.gap : 0)

    focus: true

    Header {
        id: header
        app: root.app
        showsChips: true
        title: root.app.label("label.shift") + " · " + root.app.shift.siteName
        width: root.width
    }
    WorkList {
        id: work
        anchors.top: header.bottom
        app: root.app
        height: root.isTall ? Math.max(work.least, (onlyHere.y - y - 2 * Theme.gap) / 2) : takeOver.y - y - Theme.gap
        width: root.isTall ? root.side : (root.width - root.side - 2 * Theme.gap - 2 * Theme.gapLarge) * 0.56
        x: root.isKeysLeft ? root.width - work.width - Theme.gap : Theme.gap
    }
    PlaceList {
        id: places
        app: root.app
        height: onlyHere.y - y - Theme.gap
        width: root.isTall ? root.side : root.width - root.side - work.width - 2 * Theme.gap - 2 * Theme.gapLarge
        x: root.isTall ? Theme.gap : root.isKeysLeft ? root.side + Theme.gap + Theme.gapLarge : work.x + work.width + Theme.gapLarge
        y: root.isTall ? work.y + work.height + Theme.gap : work.y
    }
    ScrollArea {
        id: area
        contentHeight: keys.height
        height: root.isTall ? Math.min(area.contentHeight, Theme.isLarge ? root.height * 0.34 : area.contentHeight) : root.height - header.height - Theme.gapSmall - Theme.gap
        width: root.side
        x: root.isTall || root.isKeysLeft ? Theme.gap : root.width - root.side - Theme.gap
        y: root.isTall ? root.height - area.height - Theme.gap : header.height + Theme.gapSmall

        ShiftKeys {
            id: keys
            app: root.app
            isTall: root.isTall
            width: area.room
        }
    }
    BigKey {
        id: takeOver
        height: Theme.touchSmall
        objectName: "toTakeOver"
        text: root.app.label("label.take-over")
        textSize: Theme.textStrong
        width: root.isTall ? (root.side - Theme.gap) / 2 : work.width
        x: root.isTall ? Theme.gap : work.x
        y: onlyHere.y

        onPressed: root.app.showTakeOver()
    }
    BigKey {
        id: onlyHere
        align: Text.AlignLeft
        height: Theme.touchSmall
        objectName: "onlyHere"
        text: root.app.shift.onlyHereText
        width: root.isTall ? takeOver.width : places.width
        x: root.isTall ? takeOver.x + takeOver.width + Theme.gap : places.x
        y: root.isTall ? area.y - Theme.gap - height : root.height - height - Theme.gap

        onPressed: root.app.showHandover()
    }
}
