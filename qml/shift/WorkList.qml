// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// Today's runs and the open jobs, as many as there is room for; the others by a key at the end. A touch goes there.
Item {
    id: root

    required property AppView app
    readonly property int fewest: 2
    /// Height for the fewest lines that it can show.
    readonly property real least: title.height + root.fewest * (Theme.lineHeight + Theme.gap)
    property int page: 0
    readonly property int perPage: list.count > root.places ? root.places - 1 : root.places
    readonly property int places: Math.max(root.fewest, Math.floor((root.height - title.height) / (Theme.lineHeight + Theme.gap)))

    Label {
        id: title
        font.pixelSize: Theme.textStrong
        isStrong: true
        text: root.app.label("label.shift-work")
        width: parent.width
    }
    Label {
        anchors.top: title.bottom
        anchors.topMargin: Theme.gap
        objectName: "noWork"
        text: root.app.label("app.shift.no-work")
        visible: list.count === 0
        width: parent.width
    }
    Column {
        anchors.top: title.bottom
        anchors.topMargin: Theme.gap
        spacing: Theme.gap
        width: parent.width

        Repeater {
            id: list
            model: root.app.shift.work

            delegate: BigKey {
                id: key

                required detail
                required property int index
                required isLoud
                required property bool isOpen
                required property string name
                required sign
                required property string signText

                align: Text.AlignLeft
                height: Theme.lineHeight
                objectName: "work" + key.index
                text: key.name + "  ·  " + key.signText
                textSize: key.isOpen ? Theme.textStrong : Theme.textBody
                visible: Math.floor(key.index / root.perPage) === root.page % Math.ceil(list.count / root.perPage)
                width: root.width

                onPressed: root.app.shift.open(key.index)
            }
        }
        BigKey {
            height: Theme.lineHeight
            objectName: "workMore"
            repeats: true
            text: root.app.label("label.more")
            visible: list.count > root.places
            width: root.width

            onPressed: root.page = root.page + 1
        }
    }
}
