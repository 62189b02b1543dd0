// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Spent oil to waste: from where into what, a second look at the source, the countdown, the litres, the label.
JobPage {
    id: root

    readonly property TransferView transfer: root.app.transfer

    isCovered: why.visible
    kind: "waste"
    text: root.app.label("app.waste.is-not")
    title: root.app.label("label.waste-title")
    typed: root.transfer.phase === TransferView.Plan ? root.transfer.fields : root.transfer.phase === TransferView.Measure ? root.transfer.moved : root.transfer.plate

    onGoOnWanted: root.transfer.phase === TransferView.Stopped ? root.app.flushCart() : root.transfer.goOn()

    Loader {
        anchors.fill: parent
        sourceComponent: root.transfer.phase === TransferView.Plan ? plan : root.transfer.phase === TransferView.Confirm ? confirm : root.transfer.phase === TransferView.Running ? running : record
    }
    Component {
        id: plan
        TransferPlan {
            app: root.app
            isTall: root.isTall
        }
    }
    Component {
        id: confirm
        TransferConfirm {
            app: root.app
            isTall: root.isTall
        }
    }
    Component {
        id: running
        TransferRunning {
            app: root.app
            isTall: root.isTall
        }
    }
    Component {
        id: record
        TransferRecord {
            app: root.app
            isTall: root.isTall
        }
    }
    WhySkippedSheet {
        id: why
        app: root.app
        checklist: root.transfer.points
        height: root.height
        parent: root
        width: root.width
    }
}
