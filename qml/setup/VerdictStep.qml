// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Every item with what is expected and what is allowed; what can be done where it does not go.
Item {
    id: root

    required property AppView app
    readonly property SetupView setup: root.app.setup

    signal overrideWanted

    ScrollArea {
        id: area
        contentHeight: above.height
        height: root.height - (keys.height > 0 ? keys.height + Theme.gap : 0)
        width: root.width

        Column {
            id: above
            spacing: Theme.gap
            width: area.room

            ItemTable {
                app: root.app
                items: root.setup.verdict.items
                width: parent.width
            }
            CautionLine {
                objectName: "overrideTold"
                text: root.setup.overrideText
                visible: root.setup.overrideText !== ""
                width: parent.width
            }
            Options {
                app: root.app
                visible: root.setup.overrideText === ""
                width: parent.width
            }
            Label {
                font.pixelSize: Theme.textSmall
                objectName: "setupLearned"
                text: root.app.label("app.setup.learned") + "\n" + root.setup.learnedText
                visible: root.setup.learnedText !== ""
                width: parent.width
            }
        }
        Assumed {
            id: assumed

            readonly property real below: above.height + Theme.gap

            app: root.app
            visible: assumed.below + assumed.height < area.height // the panel has them in short
            width: area.room
            y: assumed.below
        }
    }
    Item {
        id: keys
        anchors.bottom: parent.bottom
        height: root.setup.wantsOverride || root.setup.slowerText !== "" ? Theme.lineHeight : 0
        width: parent.width
    }
    ChoiceKey {
        anchors.bottom: parent.bottom
        height: Theme.lineHeight
        isChosen: root.setup.takesSlower
        objectName: "takeSlower"
        text: root.setup.slowerText
        textSize: Theme.textStrong
        visible: root.setup.slowerText !== ""
        width: parent.width

        onPressed: root.setup.takeSlower()
    }
    BigKey {
        anchors.bottom: parent.bottom
        height: Theme.lineHeight
        objectName: "startAgainst"
        text: root.app.label("label.start-against") + "…"
        textSize: Theme.textStrong
        visible: root.setup.wantsOverride
        width: parent.width

        onPressed: root.overrideWanted()
    }
}
