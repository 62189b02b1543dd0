// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What can be begun, and the pages of the site.
Grid {
    id: root

    required property AppView app
    readonly property real cell: (root.width - (root.columns - 1) * root.spacing) / root.columns

    columns: 2
    spacing: Theme.gap

    BigKey {
        isMain: true
        objectName: "setUp"
        text: root.app.label("label.new-run")
        textSize: Theme.textTitle
        width: root.cell

        onPressed: root.app.showSetUp()
    }
    PlaceKey {
        objectName: "toStock"
        text: root.app.label("label.stock")

        onPressed: root.app.showStock()
    }
    PlaceKey {
        objectName: "toFlush"
        sign: "flush"
        text: root.app.label("label.flush-cart")

        onPressed: root.app.showFlush()
    }
    PlaceKey {
        objectName: "toTransfer"
        sign: "waste"
        text: root.app.label("label.to-waste")

        onPressed: root.app.showTransfer()
    }
    PlaceKey {
        objectName: "toTanks"
        text: root.app.label("label.tanks")

        onPressed: root.app.showTanks()
    }
    PlaceKey {
        objectName: "toCarts"
        text: root.app.label("label.carts")

        onPressed: root.app.showCarts()
    }
    PlaceKey {
        objectName: "toPeople"
        text: root.app.label("label.people")

        onPressed: root.app.showPeople()
    }

    component PlaceKey: BigKey {
        textSize: Theme.textBody
        width: root.cell
    }
}
