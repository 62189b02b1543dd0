// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints an inline component as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What can be begun, and the pages of the site.
Column {
    id: root

    required property AppView app
    required property bool isTall

    spacing: Theme.gap

    BigKey {
        isMain: true
        objectName: "setUp"
        text: root.app.label("label.new-run")
        textSize: Theme.textTitle
        width: root.width

        onPressed: root.app.showSetUp()
    }
    Grid {
        id: jobs
        columns: root.isTall ? 2 : 1
        spacing: Theme.gap

        JobKey {
            objectName: "toFlush"
            sign: "flush"
            text: root.app.label("label.flush-cart")

            onPressed: root.app.showFlush()
        }
        JobKey {
            objectName: "toTransfer"
            sign: "waste"
            text: root.app.label("label.to-waste")

            onPressed: root.app.showTransfer()
        }
    }
    Grid {
        id: places
        columns: root.isTall ? 3 : 2
        spacing: Theme.gap

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
            objectName: "toStock"
            text: root.app.label("label.stock")

            onPressed: root.app.showStock()
        }
        PlaceKey {
            objectName: "toPeople"
            text: root.app.label("label.people")

            onPressed: root.app.showPeople()
        }
        PlaceKey {
            objectName: "toSettings"
            text: root.app.label("label.settings")

            onPressed: root.app.showSettings()
        }
        PlaceKey {
            objectName: "toPractice"
            text: root.app.label("label.practice")

            onPressed: root.app.showPractice()
        }
    }

    component JobKey: BigKey {
        align: Text.AlignLeft
        height: Theme.lineHeight
        textSize: Theme.textStrong
        width: (root.width - (jobs.columns - 1) * Theme.gap) / jobs.columns
    }
    component PlaceKey: BigKey {
        height: Theme.lineHeight
        width: (root.width - (places.columns - 1) * Theme.gap) / places.columns
    }
}
