// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One thing that a person wants: its name and a row of keys.
Item {
    id: wish

    property alias choices: keys.choices
    property alias columns: keys.columns
    property alias itemName: keys.itemName
    property string title

    signal chosen(int row)

    height: keys.height

    Label {
        anchors.verticalCenter: parent.verticalCenter
        fontSizeMode: Text.Fit
        height: parent.height
        isStrong: true
        minimumPixelSize: Theme.textLeast
        text: wish.title
        verticalAlignment: Text.AlignVCenter
        width: keys.x - Theme.gap
    }
    ChoiceGrid {
        id: keys
        columns: 3
        itemName: ""
        width: parent.width - x
        x: Theme.touch * 1.3

        onChosen: row => wish.chosen(row)
    }
}
