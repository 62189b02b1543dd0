// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Set up a run, one decision a step: the steps at the left, the step in the middle, the verdict at the right, the other
/// way round for a left hand; one above the other where the window is tall.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isKeysLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width
    readonly property SetupView setup: root.app.setup
    readonly property FieldsView typed: root.setup.step === SetupView.Target ? root.setup.code : root.setup.oil

    focus: true

    Keys.onPressed: event => {
        if (event.key === Qt.Key_Backspace) {
            root.typed.backspace();
            event.accepted = true;
        } else if (event.key === Qt.Key_Return || event.key === Qt.Key_Enter) {
            root.setup.goOn();
            event.accepted = true;
        } else if ((root.setup.step === SetupView.Target || root.setup.step === SetupView.Oil) && event.text !== "" && "0123456789.,-/".includes(event.text)) {
            root.typed.key(event.text);
            event.accepted = true;
        }
    }

    Item {
        anchors.fill: parent
        enabled: !override.visible && !why.visible && !tankCheck.visible && !wrongTank.visible

        Header {
            id: header
            app: root.app
            width: root.width
        }
        StepRail {
            id: rail
            anchors.top: header.bottom
            anchors.topMargin: root.isTall ? Theme.gapSmall : 0
            columns: root.isTall ? 4 : 1
            keyHeight: root.isTall ? Theme.lineHeight : Math.max(Theme.touchLeast, (root.height - header.height - Theme.gap - 7 * Theme.gap) / 8)
            setup: root.setup
            width: root.isTall ? root.width - 2 * Theme.gap : Theme.rail
            x: root.isKeysLeft ? root.width - width - Theme.gap : Theme.gap
        }
        Label {
            id: question
            anchors.left: body.left
            anchors.right: body.right
            anchors.top: root.isTall ? rail.bottom : header.bottom
            anchors.topMargin: root.isTall ? Theme.gap : 0
            font.pixelSize: Theme.textTitle
            isStrong: true
            objectName: "stepQuestion"
            text: root.setup.question
        }
        Label {
            id: reason
            anchors.left: body.left
            anchors.right: body.right
            anchors.top: question.bottom
            text: root.setup.reason
        }
        ScrollArea {
            id: body
            anchors.bottom: root.isTall ? verdict.top : parent.bottom
            anchors.bottomMargin: Theme.gap
            anchors.top: reason.bottom
            anchors.topMargin: Theme.gap
            contentHeight: step.item ? step.item.implicitHeight : 0
            shows: root.setup.step
            width: root.isTall ? root.width - 2 * Theme.gap : root.width - rail.width - verdict.width - 2 * (Theme.gap + Theme.gapLarge)
            x: root.isTall ? Theme.gap : Theme.gap + Theme.gapLarge + (root.isKeysLeft ? verdict.width : rail.width)

            Loader {
                id: step
                height: Math.max(body.height, body.contentHeight)
                sourceComponent: [tank, cart, elements, oil, hoses, target, verdictStep, area][root.setup.step]
                width: body.room
            }
        }
        VerdictPanel {
            id: verdict
            anchors.bottom: parent.bottom
            anchors.bottomMargin: Theme.gap
            app: root.app
            height: root.isTall ? Theme.touch * 3 : root.height - header.height - Theme.gap
            width: root.isTall ? root.width - 2 * Theme.gap : Theme.setupSide
            x: root.isKeysLeft ? Theme.gap : root.width - verdict.width - Theme.gap
        }
    }
    OverrideSheet {
        id: override
        app: root.app
        visible: false

        onClosed: override.visible = false
    }
    WhySkippedSheet {
        id: why
        app: root.app
        checklist: root.setup.step === SetupView.Hoses ? root.setup.hosePoints : root.setup.areaPoints
    }
    TankCheckSheet {
        id: tankCheck
        app: root.app
        enabled: !wrongTank.visible
        visible: false

        onClosed: tankCheck.visible = false
    }
    WrongTankPage {
        id: wrongTank
        app: root.app
        check: root.setup.tankCheck
        visible: root.setup.tankCheck.isMismatch
    }
    Component {
        id: tank
        TankStep {
            app: root.app

            onCheckWanted: tankCheck.visible = true
        }
    }
    Component {
        id: cart
        CartStep {
            app: root.app
        }
    }
    Component {
        id: elements
        ElementsStep {
            app: root.app
        }
    }
    Component {
        id: oil
        OilStep {
            app: root.app
        }
    }
    Component {
        id: hoses
        HosesStep {
            app: root.app
        }
    }
    Component {
        id: target
        TargetStep {
            app: root.app
        }
    }
    Component {
        id: verdictStep
        VerdictStep {
            app: root.app

            onOverrideWanted: override.visible = true
        }
    }
    Component {
        id: area
        AreaStep {
            app: root.app
        }
    }
}
