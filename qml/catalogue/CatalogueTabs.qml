// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints an inline component as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The pages of the catalogue side by side, in two rows where large text needs the room; the one that is shown is marked.
Grid {
    id: root

    required property AppView app

    columns: Theme.isLarge && root.width < Theme.px(1000) ? 3 : 6
    spacing: Theme.gap

    Tab {
        isMarked: root.app.page === AppView.Tanks
        objectName: "tabTanks"
        text: root.app.label("label.tanks")

        onPressed: root.app.showTanks()
    }
    Tab {
        isMarked: root.app.page === AppView.Carts
        objectName: "tabCarts"
        text: root.app.label("label.carts")

        onPressed: root.app.showCarts()
    }
    Tab {
        isMarked: root.app.page === AppView.Fluids
        objectName: "tabFluids"
        text: root.app.label("label.fluids")

        onPressed: root.app.showFluids()
    }
    Tab {
        isMarked: root.app.page === AppView.Elements
        objectName: "tabElements"
        text: root.app.label("label.element-types")

        onPressed: root.app.showElements()
    }
    Tab {
        isMarked: root.app.page === AppView.Jobs
        objectName: "tabJobs"
        text: root.app.label("label.planned-jobs")

        onPressed: root.app.showJobs()
    }
    Tab {
        isMarked: root.app.page === AppView.File
        objectName: "tabFile"
        text: root.app.label("label.records-file")

        onPressed: root.app.showFile()
    }

    component Tab: BigKey {
        height: Theme.touchSmall
        width: (root.width - (root.columns - 1) * root.spacing) / root.columns
    }
}
