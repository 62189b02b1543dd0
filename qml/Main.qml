// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import QtQuick.Window
import Loopside.Model

/// The window: one place of work, and over it what cannot wait.
Window {
    id: root

    required property AppView app
    readonly property bool isCovered: alert.visible || who.visible || trouble.visible
    readonly property QtObject theme: Theme

    color: Theme.ground
    height: 800
    title: "Loopside"
    visible: true
    width: 1280

    onIsCoveredChanged: {
        if (!root.isCovered) {
            page.forceActiveFocus();
        }
    }

    Binding {
        property: "name"
        target: Theme
        value: root.app.theme
    }
    Binding {
        property: "isLeftHanded"
        target: Theme
        value: root.app.isLeftHanded
    }
    Binding {
        property: "upSpoken"
        target: Theme
        value: root.app.label("label.scroll-up")
    }
    Binding {
        property: "downSpoken"
        target: Theme
        value: root.app.label("label.scroll-down")
    }
    Binding {
        property: "textScale"
        target: Theme
        value: root.app.textScale
    }
    Binding {
        property: "isStill"
        target: Theme
        value: root.app.isStill
    }
    Binding {
        property: "unit"
        target: Theme
        value: Math.max(0.5, Math.min(Math.min(root.width, root.height) / 800, Math.max(root.width, root.height) / 1280))
    }
    Item {
        id: everything
        anchors.fill: parent
        objectName: "everything"

        Keys.onShortcutOverride: root.app.touched()

        Loader {
            id: page
            anchors.fill: parent
            enabled: !root.isCovered
            focus: true
            sourceComponent: root.app.page === AppView.Run ? run : root.app.page === AppView.Changeover ? changeover : root.app.page === AppView.CloseOut ? closeOut : root.app.page === AppView.Flush ? flush : root.app.page === AppView.Transfer ? transfer : root.app.page === AppView.SetUp ? setup : root.app.page === AppView.Stock ? stock : root.app.page === AppView.Tanks ? tanks : root.app.page === AppView.Carts ? carts : root.app.page === AppView.People ? people : shift

            onLoaded: page.forceActiveFocus()
        }
        WhoSheet {
            id: who
            app: root.app
            enabled: !alert.visible
            visible: root.app.asksWho
        }
        AlertPage {
            id: alert
            app: root.app
            visible: root.app.alert.isUp
        }
        TroubleSheet {
            id: trouble
            app: root.app
            visible: root.app.trouble !== ""
        }
        Item {
            anchors.fill: parent

            PointHandler {
                onActiveChanged: {
                    if (active) {
                        root.app.touched();
                    }
                }
            }
        }
    }
    Component {
        id: run
        RunPage {
            app: root.app
        }
    }
    Component {
        id: setup
        SetupPage {
            app: root.app
        }
    }
    Component {
        id: changeover
        ChangeoverPage {
            app: root.app
        }
    }
    Component {
        id: closeOut
        CloseOutPage {
            app: root.app
        }
    }
    Component {
        id: flush
        FlushPage {
            app: root.app
        }
    }
    Component {
        id: shift
        ShiftPage {
            app: root.app
        }
    }
    Component {
        id: tanks
        RecordPage {
            app: root.app
            record: root.app.tanks
            title: root.app.label("label.tanks")
        }
    }
    Component {
        id: carts
        RecordPage {
            app: root.app
            record: root.app.carts
            title: root.app.label("label.carts")
        }
    }
    Component {
        id: people
        PeoplePage {
            app: root.app
        }
    }
    Component {
        id: stock
        StockPage {
            app: root.app
        }
    }
    Component {
        id: transfer
        TransferPage {
            app: root.app
        }
    }
}
