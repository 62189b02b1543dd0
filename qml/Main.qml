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

    /// Whose screens are shown: the real ones, or those of an exercise.
    readonly property AppView app: root.home.practice.exercise ? root.home.practice.exercise.app : root.home
    /// That of the cart panel, which stands a moment longer than the exercise is shown.
    property ExerciseView cartOf: null
    readonly property ExerciseView exercise: root.app.exercise
    required property AppView home
    readonly property bool isCovered: alert.visible || otherTank.visible || who.visible || trouble.visible || asking.visible || debrief.visible
    readonly property RunPage runPage: page.item as RunPage
    readonly property QtObject theme: Theme
    readonly property real topRoom: root.exercise ? Theme.frame + Theme.gapSmall : 0

    color: Theme.ground
    height: 800
    title: "Loopside"
    visible: true
    width: 1280

    onExerciseChanged: {
        if (root.exercise) {
            root.cartOf = root.exercise;
        }
    }
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
            anchors.topMargin: root.topRoom
            enabled: !root.isCovered
            focus: true
            sourceComponent: root.app.page === AppView.Run ? run : root.app.page === AppView.Changeover ? changeover : root.app.page === AppView.CloseOut ? closeOut : root.app.page === AppView.Flush ? flush : root.app.page === AppView.Transfer ? transfer : root.app.page === AppView.SetUp ? setup : root.app.page === AppView.Stock ? stock : root.app.page === AppView.Tanks ? tanks : root.app.page === AppView.Carts ? carts : root.app.page === AppView.People ? people : root.app.page === AppView.Fluids ? fluids : root.app.page === AppView.Elements ? elements : root.app.page === AppView.Jobs ? jobs : root.app.page === AppView.File ? file : root.app.page === AppView.Logged ? logged : root.app.page === AppView.Practice ? practice : root.app.page === AppView.Keeping ? keeping : root.app.page === AppView.Handover ? handover : root.app.page === AppView.Settings ? settings : root.app.page === AppView.Kit ? kit : root.app.page === AppView.Guide ? guide : root.app.page === AppView.TakeOver ? takeOver : root.app.page === AppView.HandOn ? handOn : root.app.page === AppView.Link ? link : shift

            onLoaded: page.forceActiveFocus()
        }
        Loader {
            id: cart

            readonly property bool isTall: root.height > root.width
            readonly property real pad: Theme.touch * 3 + Theme.padSide + 5 * Theme.gap

            active: root.exercise !== null && root.cartOf === root.exercise
            enabled: !root.isCovered
            height: root.height - y - (Theme.isLarge ? Theme.gap : Theme.touch + 2 * Theme.gap + (cart.isTall ? 4 * Theme.touch + 5 * Theme.gap : 0)) // whole where text is large
            sourceComponent: cartPanel
            visible: active && root.exercise.isAtCart && !(root.runPage && root.runPage.isCovered)
            width: root.width - 2 * Theme.gap - (cart.isTall || Theme.isLarge ? 0 : cart.pad)
            x: Theme.gap + (Theme.isLeftHanded && !cart.isTall && !Theme.isLarge ? cart.pad : 0)
            y: root.topRoom + Theme.touchSmall + Theme.gap + Theme.gapSmall
        }
        AskSheet {
            id: asking
            app: root.app
            enabled: !alert.visible
        }
        WhoSheet {
            id: who
            app: root.app
            enabled: !alert.visible
            visible: root.app.asksWho
        }
        WrongTankPage {
            id: otherTank
            app: root.app
            check: root.app.otherTank
            enabled: !alert.visible
            visible: root.app.otherTank.isMismatch
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
        DebriefPage {
            id: debrief
            anchors.fill: parent
            app: root.app
            visible: root.exercise ? root.exercise.isOver : false

            onAgain: root.home.practice.again()
            onLeaving: root.home.practice.leave()
        }
        PracticeFrame {
            anchors.fill: parent
            app: root.app
            visible: root.exercise !== null
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
        id: fluids
        RecordPage {
            app: root.app
            record: root.app.fluids
            title: root.app.label("label.fluids")
        }
    }
    Component {
        id: elements
        RecordPage {
            app: root.app
            record: root.app.elements
            title: root.app.label("label.element-types")
        }
    }
    Component {
        id: jobs
        RecordPage {
            app: root.app
            record: root.app.jobs
            title: root.app.label("label.planned-jobs")
        }
    }
    Component {
        id: file
        FilePage {
            app: root.app
        }
    }
    Component {
        id: people
        PeoplePage {
            app: root.app
        }
    }
    Component {
        id: kit
        KitPage {
            app: root.app
        }
    }
    Component {
        id: logged
        LoggedPage {
            app: root.app
        }
    }
    Component {
        id: practice
        PracticePage {
            app: root.app
        }
    }
    Component {
        id: keeping
        KeepingPage {
            app: root.app
        }
    }
    Component {
        id: handover
        HandoverPage {
            app: root.app
        }
    }
    Component {
        id: takeOver
        TakeOverPage {
            app: root.app
        }
    }
    Component {
        id: handOn
        HandOnPage {
            app: root.app
        }
    }
    Component {
        id: link
        LinkPage {
            app: root.app
        }
    }
    Component {
        id: guide
        GuidePage {
            app: root.app
        }
    }
    Component {
        id: settings
        SettingsPage {
            app: root.app
        }
    }
    Component {
        id: cartPanel
        CartPanel {
            app: root.app
            exercise: root.cartOf
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
