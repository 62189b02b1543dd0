// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The stock of elements: the types at the left, what is told of the chosen one in the middle, the pad at the right.
PadPage {
    id: root

    readonly property StockView stock: root.app.stock
    readonly property real toldWidth: root.room.width - root.typesWidth - Theme.gapLarge
    readonly property real typesWidth: (root.room.width - Theme.gapLarge) * 0.34

    fields: root.stock.fields
    mainText: root.stock.mainText
    problem: root.stock.problem
    title: root.app.label("label.stock")

    onLeaving: root.app.showShift()
    onPressed: root.stock.log()

    Column {
        spacing: Theme.gap
        width: root.typesWidth

        ChoiceList {
            choices: root.stock.types
            itemName: "stockType"
            moreText: root.app.label("label.more")
            places: root.isTall ? (Theme.isLarge ? 3 : 5) : 6
            width: parent.width

            onChosen: row => root.stock.chooseType(row)
        }
        Label {
            color: Theme.dim
            font.pixelSize: Theme.textSmall
            text: root.app.label("app.stock.one-place")
            width: parent.width
        }
    }
    Column {
        spacing: Theme.gap
        width: root.toldWidth
        x: root.typesWidth + Theme.gapLarge

        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            text: root.stock.typeName
            visible: text !== ""
            width: parent.width
        }
        Table {
            rows: root.stock.facts
            width: parent.width
        }
        ChoiceGrid {
            choices: root.stock.kinds
            columns: root.isTall ? 2 : 3
            itemName: "stockKind"
            keyHeight: Theme.lineHeight
            width: parent.width

            onChosen: row => root.stock.chooseKind(row)
        }
        Label {
            text: root.stock.kindText
            visible: text !== ""
            width: parent.width
        }
        FieldList {
            fields: root.stock.fields
            itemName: "stockField"
            unitSpoken: root.app.label("label.unit")
            width: parent.width
        }
        Label {
            objectName: "stockNotice"
            text: root.stock.notice
            visible: text !== ""
            width: parent.width
        }
        MoveList {
            moreText: root.app.label("label.earlier")
            moves: root.stock.moves
            places: root.isTall ? 2 : 4
            width: parent.width
        }
    }
}
