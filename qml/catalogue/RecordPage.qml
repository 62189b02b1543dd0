// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Tanks, carts, oils or element types: the list at the left, what is known of the chosen one and what became of it
/// beside; while it is changed, its fields and the pad.
PadPage {
    id: root

    readonly property bool isEditing: root.record.isEditing
    required property RecordView record
    readonly property real side: root.isTall ? root.room.width : root.column * 0.8

    contentHeight: root.isEditing ? edited.height : Math.max(keys.y + keys.height, facts.visible ? facts.y + facts.height : 0, why.visible ? why.y + why.height : 0)
    fields: root.record.fields
    hasPad: root.isEditing
    mainText: root.record.mainText
    problem: root.record.problem

    onLeaving: {
        if (!root.record.back()) {
            root.app.showShift();
        }
    }
    onPressed: root.record.goOn()

    CatalogueTabs {
        id: tabs
        app: root.app
        visible: !root.isEditing
        width: root.room.width
    }
    ChoiceList {
        id: items
        choices: root.record.items
        itemName: "record"
        moreText: root.app.label("label.more")
        places: 4
        visible: !root.isEditing
        width: root.side
        y: tabs.height + Theme.gapLarge

        onChosen: row => root.record.choose(row)
    }
    Row {
        id: keys
        spacing: Theme.gap
        visible: !root.isEditing
        y: items.y + items.height + (items.height > 0 ? Theme.gap : 0)

        BigKey {
            height: Theme.touchSmall
            objectName: "recordNew"
            text: root.record.newText
            width: (root.side - Theme.gap) / 2

            onPressed: root.record.tellNew()
        }
        BigKey {
            height: Theme.touchSmall
            objectName: "recordService"
            text: root.record.serviceText
            visible: root.record.isChosen && !root.record.isAskingWhy
            width: (root.side - Theme.gap) / 2

            onPressed: root.record.changeService()
        }
    }
    RecordFacts {
        id: facts
        app: root.app
        places: root.isTall ? 5 : 2
        record: root.record
        visible: !root.isEditing && !root.record.isAskingWhy && root.record.isChosen
        width: root.room.width - x
        x: root.isTall ? 0 : root.side + Theme.gapLarge
        y: root.isTall ? keys.y + keys.height + Theme.gapLarge : items.y
    }
    RecordWhy {
        id: why
        app: root.app
        record: root.record
        visible: root.record.isAskingWhy
        width: root.room.width - x
        x: root.isTall ? 0 : root.side + Theme.gapLarge
        y: root.isTall ? keys.y + keys.height + Theme.gapLarge : items.y
    }
    RecordFields {
        id: edited
        app: root.app
        isTall: root.isTall
        record: root.record
        visible: root.isEditing
        width: root.room.width
    }
}
