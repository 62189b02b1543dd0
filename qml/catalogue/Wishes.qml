// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The units that a person wants: one row of keys for each; and who changed what the person wants when.
Column {
    id: root

    required property AppView app
    readonly property PeopleView people: root.app.wishes

    spacing: Theme.gap

    Wish {
        choices: root.people.pressures
        columns: 4
        itemName: "pressure"
        title: root.app.label("app.people.pressure")
        width: root.width

        onChosen: row => root.people.choosePressure(row)
    }
    Wish {
        choices: root.people.volumes
        itemName: "volume"
        title: root.app.label("app.people.volume")
        width: root.width

        onChosen: row => root.people.chooseVolume(row)
    }
    Wish {
        choices: root.people.temperatures
        itemName: "temperature"
        title: root.app.label("app.people.temperature")
        width: root.width

        onChosen: row => root.people.chooseTemperature(row)
    }
    MoveList {
        moreText: root.app.label("label.earlier")
        moves: root.people.history
        places: 4
        width: parent.width
    }
}
