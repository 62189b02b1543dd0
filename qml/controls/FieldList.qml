// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The fields of a page under each other, or in columns; beside a field whose unit can be another the key that says so.
Flow {
    id: root

    /// Fields from this one on are not shown either.
    property int behindRow: 1000
    property int columns: 1
    required property FieldsView fields
    /// Fields before this one are not shown.
    property int firstRow: 0
    required property string itemName
    required property string unitSpoken
    /// A field with such a key takes a whole line: where columns are narrow.
    property bool widens: false

    /// What is typed is seen while it is typed.
    function follow(row: Item) {
        let area = root.parent;
        while (area && !area.bringIntoSight) {
            area = area.parent;
        }
        if (area) {
            area.bringIntoSight(row);
        }
    }

    spacing: Theme.gap

    Repeater {
        model: root.fields.rows

        delegate: Item {
            id: row

            required property string ghost
            required property bool hasUnits
            required property int index
            required property bool isActive
            readonly property bool isTyped: row.isActive && row.visible && row.text !== ""
            required property string name
            required property string problem
            required property string text
            required property string unit

            function followTyped() {
                if (row && row.isTyped) {
                    root.follow(row);
                }
            }

            height: Theme.touchSmall
            visible: row.index >= root.firstRow && row.index < root.behindRow
            width: row.hasUnits && root.widens ? root.width : Math.floor((root.width - (root.columns - 1) * root.spacing) / root.columns)

            Component.onCompleted: Qt.callLater(row.followTyped)
            onIsTypedChanged: Qt.callLater(row.followTyped)

            TypedField {
                ghost: row.ghost
                isActive: row.isActive
                name: row.name
                objectName: root.itemName + row.index
                problem: row.problem
                text: row.text
                unit: row.hasUnits ? "" : row.unit
                width: row.hasUnits ? row.width - unit.width - Theme.gap : row.width

                onSelected: root.fields.select(row.index)
            }
            BigKey {
                id: unit
                anchors.right: parent.right
                height: row.height
                objectName: root.itemName + row.index + "Unit"
                repeats: true
                spoken: root.unitSpoken + " " + row.unit
                text: row.unit
                textSize: Theme.textStrong
                visible: row.hasUnits
                width: Theme.touchSmall

                onPressed: root.fields.stepUnit(row.index)
            }
        }
    }
}
