// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The flush of a cart: plan it, log batch by batch, close it, see its record.
JobPage {
    id: root

    readonly property FlushView flush: root.app.flush

    isCovered: close.visible
    kind: "flush"
    text: root.app.label("app.flush.is-not")
    title: root.app.label("label.flush-title")
    typed: root.flush.fields

    onGoOnWanted: root.flush.goOn()

    Loader {
        anchors.fill: parent
        sourceComponent: root.flush.phase === FlushView.Plan ? plan : batches
    }
    Component {
        id: plan
        FlushPlan {
            app: root.app
            isTall: root.isTall
        }
    }
    Component {
        id: batches
        FlushBatches {
            app: root.app
            isTall: root.isTall

            onCloseWanted: close.visible = true
        }
    }
    FlushCloseSheet {
        id: close
        app: root.app
        height: root.height
        parent: root
        visible: false
        width: root.width
    }
}
