// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The bottles of a run at the left; the chosen one in the middle, to be drawn or with its result; the pad at the right.
PadPage {
    id: root

    /// Beside the key it stays in sight whatever is typed; where there is no room for that it comes first.
    readonly property bool isCautionBeside: !root.isTall && !Theme.isLarge
    readonly property KitView kit: root.app.kit

    caution: root.isCautionBeside && root.kit.isDrawing ? root.kit.draw.caution : ""
    contentHeight: root.isTall ? chosen.y + chosen.height : Math.max(list.height, chosen.height)
    fields: root.kit.fields
    hasPad: root.kit.isDrawing || root.kit.isDrawn || !root.isTall
    mainText: root.kit.mainText
    problem: root.kit.problem
    shows: root.kit.title + root.kit.isDrawn
    title: root.app.label("label.kit")

    onLeaving: root.app.leaveKit()
    onPressed: root.kit.goOn()

    Column {
        id: list
        spacing: Theme.gap
        width: root.isTall ? root.room.width : root.column * 0.8

        ChoiceList {
            choices: root.kit.bottles
            itemName: "bottle"
            moreText: root.app.label("label.more")
            places: root.isTall ? 4 : 6
            width: parent.width

            onChosen: row => root.kit.choose(row)
        }
        Label {
            objectName: "kitAhead"
            text: root.kit.aheadText
            visible: text !== ""
            width: parent.width
        }
    }
    Column {
        id: chosen
        spacing: Theme.gap
        width: root.isTall ? root.room.width : root.room.width - x
        x: root.isTall ? 0 : list.width + Theme.gapLarge
        y: root.isTall ? list.height + Theme.gapLarge : 0

        Label {
            font.pixelSize: Theme.textStrong
            isStrong: true
            objectName: "kitTitle"
            text: root.kit.title
            visible: text !== ""
            width: parent.width
        }
        CautionLine {
            isDense: true
            objectName: "kitDoubt"
            text: root.kit.doubtText
            visible: text !== ""
            width: parent.width
        }
        Label {
            objectName: "kitNotice"
            text: root.kit.notice
            visible: text !== ""
            width: parent.width
        }
        BottleDraw {
            app: root.app
            hasCaution: !root.isCautionBeside
            isNarrow: root.isTall || Theme.isLarge
            visible: root.kit.isDrawing
            width: parent.width
        }
        BottleResult {
            app: root.app
            isNarrow: root.isTall || Theme.isLarge
            visible: root.kit.isDrawn
            width: parent.width
        }
    }
}
