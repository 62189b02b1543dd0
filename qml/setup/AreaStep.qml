// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What the site asks for before the pump starts.
Column {
    id: root

    required property AppView app

    spacing: Theme.gap

    ChecklistPanel {
        app: root.app
        checklist: root.app.setup.areaPoints
        itemName: "areaPoint"
        width: parent.width
    }
}
