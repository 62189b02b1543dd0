// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What a person did at the cart, and the end of the run. The mode that holds now has a frame and its word.
Row {
    id: root

    required property AppView app

    spacing: Theme.gap

    ModeKey {
        mode: "stopped"
        objectName: "modeStopped"
        text: root.app.label("label.i-stopped")
    }
    ModeKey {
        mode: "bypassing"
        objectName: "modeBypassing"
        text: root.app.label("label.i-set-bypass")
    }
    ModeKey {
        mode: "filtering"
        objectName: "modeFiltering"
        text: root.app.label("label.i-set-filter")
    }
    BigKey {
        objectName: "endRun"
        text: root.app.label("label.end-run")

        onPressed: root.app.openCloseOut()
    }

    component ModeKey: BigKey {
        id: key

        required property string mode

        detail: key.isMarked ? root.app.label("label.now") : ""
        isMarked: root.app.run.mode === key.mode

        onPressed: root.app.run.recordMode(key.mode)
    }
}
