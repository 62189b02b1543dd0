// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The trend over most of the screen, for a closer look.
Sheet {
    id: root

    required property AppView app

    room: root.width
    title: root.app.label("label.trend")

    RunTrend {
        app: root.app
        height: root.height * 0.5
        objectName: "trendLarge"
        visible: root.visible
        width: parent.width
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "trendBack"
        text: root.app.label("label.back")
        width: Theme.touch * 1.5

        onPressed: root.visible = false
    }
}
