// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// What is seen or heard at the cart; each its own tick, logged by the main key.
Sheet {
    id: root

    required property AppView app

    room: Theme.sheet * 1.5
    text: root.app.label("app.sign.ask")
    title: root.app.label("label.seen-heard")

    onVisibleChanged: {
        if (root.visible) {
            root.app.signs.open();
        }
    }

    ChoiceGrid {
        choices: root.app.signs.signs
        columns: 1
        itemName: "sign"
        width: parent.width

        onChosen: row => root.app.signs.toggle(row)
    }
    Row {
        layoutDirection: Theme.isLeftHanded ? Qt.LeftToRight : Qt.RightToLeft
        spacing: Theme.gap
        width: parent.width

        BigKey {
            enabled: root.app.signs.canLog
            isMain: true
            objectName: "signsLog"
            text: root.app.label("app.sign.log")
            textSize: Theme.textTitle
            width: Theme.touch * 2.2

            onPressed: {
                if (root.app.signs.log()) {
                    root.visible = false;
                }
            }
        }
        BigKey {
            objectName: "signsBack"
            text: root.app.label("label.back")
            textSize: Theme.textStrong
            width: Theme.touch

            onPressed: root.visible = false
        }
    }
}
