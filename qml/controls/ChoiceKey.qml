// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One of several to choose from, or a point to tick: name, what it is, and a tick where it is chosen.
BigKey {
    id: root

    property bool isChosen: false

    Accessible.checkable: true
    Accessible.checked: root.isChosen
    Accessible.role: Accessible.CheckBox
    align: Text.AlignLeft
    implicitHeight: Theme.touchSmall
    isMarked: root.isChosen
    sign: root.isChosen ? "done" : "later"
}
