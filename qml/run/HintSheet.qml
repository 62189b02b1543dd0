// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Said once a shift before a mode is recorded: this records, it does not touch the cart.
Sheet {
    id: root

    required property AppView app

    text: root.app.run.modeHint

    BigKey {
        isMain: true
        objectName: "hintConfirm"
        text: root.app.run.modeConfirm
        textSize: Theme.textTitle
        width: parent.width

        onPressed: root.app.run.confirmMode()
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "hintCancel"
        text: root.app.label("label.hint-cancel")
        width: parent.width

        onPressed: root.app.run.cancelMode()
    }
}
