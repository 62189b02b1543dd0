// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Tanks or carts: the list at the left, what is known of the chosen one and what became of it beside; while it is
/// changed, its fields and the pad.
PadPage {
    id: root

    readonly property bool isEditing: root.record.isEditing
    required property RecordView record

    contentHeight: root.isEditing ? edited.height : Math.max(begin.y + begin.height, facts.visible ? facts.y + facts.height : 0)
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

    ChoiceList {
        id: items
        choices: root.record.items
        itemName: "record"
        moreText: root.app.label("label.more")
        places: root.isTall ? 4 : 5
        visible: !root.isEditing
        width: root.isTall ? root.room.width : root.column * 0.8

        onChosen: row => root.record.choose(row)
    }
    BigKey {
        id: begin
        height: Theme.touchSmall
        objectName: "recordNew"
        text: root.app.label("app.record-page.new")
        visible: !root.isEditing && root.record.canBeNew
        width: items.width
        y: items.height + Theme.gap

        onPressed: root.record.tellNew()
    }
    RecordFacts {
        id: facts
        app: root.app
        record: root.record
        visible: !root.isEditing && root.record.isChosen
        width: root.room.width - x
        x: root.isTall ? 0 : root.column * 0.8 + Theme.gapLarge
        y: root.isTall ? items.height + (root.record.canBeNew ? Theme.touchSmall + Theme.gap : 0) + 2 * Theme.gap : 0
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
