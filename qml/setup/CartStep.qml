// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Which cart; what it pumped last against this tank's oil; the way to its flush.
Item {
    id: root

    required property AppView app
    readonly property real half: (root.width - Theme.gapLarge) / 2
    readonly property SetupView setup: root.app.setup

    implicitHeight: Math.max(known.height, 2 * (Theme.touchSmall + Theme.gap) + flush.height)

    ChoiceList {
        choices: root.setup.carts
        itemName: "cart"
        moreText: root.app.label("label.more")
        places: Math.max(2, Math.floor((flush.y + Theme.gap) / (Theme.touchSmall + Theme.gap)))
        width: root.half

        onChosen: row => root.setup.chooseCart(row)
    }
    Column {
        id: known
        spacing: Theme.gapLarge
        width: root.half
        x: root.half + Theme.gapLarge

        Table {
            rows: root.setup.facts
            width: parent.width
        }
        NoteList {
            notes: root.setup.notes
            width: parent.width
        }
    }
    BigKey {
        id: flush
        align: Text.AlignLeft
        anchors.bottom: parent.bottom
        height: Theme.lineHeight
        objectName: "flushThisCart"
        sign: "flush"
        text: root.app.label("label.flush-cart")
        textSize: Theme.textStrong
        width: root.half

        onPressed: root.app.flushCart()
    }
}
