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

    // Made when it is wanted: a second trend of a long run would take its time at each reading.
    Loader {
        active: root.visible
        height: root.height * 0.5
        width: parent.width

        sourceComponent: RunTrend {
            app: root.app
            objectName: "trendLarge"
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "trendBack"
        text: root.app.label("label.back")
        width: Theme.touch * 1.5

        onPressed: root.visible = false
    }
}
