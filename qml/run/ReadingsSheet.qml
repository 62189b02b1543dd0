// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The last sets with their times, values as typed: a touch on one leads to where it is put right.
Sheet {
    id: root

    required property AppView app
    readonly property int count: list.count
    readonly property bool isNarrow: root.height > root.width || Theme.isLarge

    room: root.isNarrow ? Theme.sheet * 1.2 : Theme.sheet * 1.9
    title: root.app.label("label.readings")

    Grid {
        flow: Grid.TopToBottom
        rows: Math.max(1, root.isNarrow ? list.count : Math.ceil(list.count / 2))
        spacing: Theme.gap
        width: parent.width

        Repeater {
            id: list
            model: root.app.run.readings

            delegate: BigKey {
                id: reading

                required detail
                required property string entry
                required property int index
                required property string name
                required sign

                align: Text.AlignLeft
                height: Theme.touchSmall
                objectName: "reading" + reading.index
                text: reading.name
                width: root.isNarrow ? parent.width : (parent.width - Theme.gap) / 2

                onPressed: {
                    root.visible = false;
                    root.app.putRight(reading.entry);
                }
            }
        }
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "readingsBack"
        text: root.app.label("label.back")
        width: Theme.touch * 1.5

        onPressed: root.visible = false
    }
}
