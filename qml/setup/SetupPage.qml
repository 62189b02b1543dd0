// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Set up a run: tank, cart, target, area, oil temperature, what it comes to, start. All steps are in sight at once:
/// choices at the left and the pad beside them, or one above the other where the window is tall.
FocusScope {
    id: root

    required property AppView app
    readonly property bool isTall: root.height > root.width
    readonly property SetupView setup: root.app.setup

    focus: true

    Keys.onPressed: event => {
        if (event.key === Qt.Key_Backspace) {
            root.setup.backspace();
            event.accepted = true;
        } else if (event.text !== "" && "0123456789.,-".includes(event.text)) {
            root.setup.key(event.text === "," ? "." : event.text);
            event.accepted = true;
        }
    }

    Header {
        id: header
        app: root.app
        width: root.width
    }
    Choices {
        id: choices
        anchors.top: header.bottom
        app: root.app
        isTall: root.isTall
        width: root.isTall ? root.width - 2 * Theme.gap : oil.x - Theme.gap - Theme.gapLarge
        x: Theme.gap
    }
    Column {
        id: oil
        spacing: Theme.gap
        width: keys.width
        x: root.isTall ? Theme.gap : root.width - outcome.width - oil.width - Theme.gap - Theme.gapLarge
        y: root.isTall ? root.height - oil.height - Theme.gap : header.height

        OilField {
            app: root.app
            visible: !root.isTall
            width: parent.width
        }
        NumberKeys {
            id: keys
            backSpoken: root.app.label("label.key-back")
            pointSpoken: root.app.label("label.key-point")

            onDeleted: root.setup.backspace()
            onTyped: sign => root.setup.key(sign)
        }
        CounterKey {
            app: root.app
            objectName: "counterOnSite"
            visible: !root.isTall
            width: parent.width
        }
    }
    Outcome {
        id: outcome
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.top: oil.top
        app: root.app
        showsOil: root.isTall
        width: root.isTall ? root.width - oil.width - 2 * Theme.gap - Theme.gapLarge : Theme.setupSide
    }
}
