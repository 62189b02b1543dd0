// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Before a flush is closed: were the elements renewed?
Sheet {
    id: root

    required property AppView app

    text: root.app.label("app.flush.why-elements")
    title: root.app.label("app.flush.elements-asked")

    BigKey {
        objectName: "elementsRenewed"
        text: root.app.label("app.flush.renewed")
        textSize: Theme.textStrong
        width: parent.width

        onPressed: {
            root.visible = false;
            root.app.flush.close(true);
        }
    }
    BigKey {
        objectName: "elementsKept"
        text: root.app.label("app.flush.kept")
        textSize: Theme.textStrong
        width: parent.width

        onPressed: {
            root.visible = false;
            root.app.flush.close(false);
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "closeBack"
        text: root.app.label("label.back")
        width: parent.width

        onPressed: root.visible = false
    }
}
