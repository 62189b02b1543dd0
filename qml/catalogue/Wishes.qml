// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints an inline component as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// What a person wants: one row of keys for each, and who changed it when.
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

        onChosen: row => root.people.choosePressure(row)
    }
    Wish {
        choices: root.people.volumes
        itemName: "volume"
        title: root.app.label("app.people.volume")

        onChosen: row => root.people.chooseVolume(row)
    }
    Wish {
        choices: root.people.temperatures
        itemName: "temperature"
        title: root.app.label("app.people.temperature")

        onChosen: row => root.people.chooseTemperature(row)
    }
    Wish {
        choices: root.people.languages
        itemName: "language"
        title: root.app.label("app.people.language")

        onChosen: row => root.people.chooseLanguage(row)
    }
    Wish {
        choices: root.people.themes
        itemName: "theme"
        title: root.app.label("app.people.theme")

        onChosen: row => root.people.chooseTheme(row)
    }
    Wish {
        choices: root.people.hands
        columns: 2
        itemName: "hand"
        title: root.app.label("app.people.hand")

        onChosen: row => root.people.chooseHand(row)
    }
    Wish {
        choices: root.people.textSizes
        columns: 4
        itemName: "textSize"
        title: root.app.label("app.people.text")

        onChosen: row => root.people.chooseTextSize(row)
    }
    Wish {
        choices: root.people.motions
        columns: 2
        itemName: "motion"
        title: root.app.label("app.people.motion")

        onChosen: row => root.people.chooseMotion(row)
    }
    MoveList {
        moreText: root.app.label("label.earlier")
        moves: root.people.history
        places: 1
        width: parent.width
    }

    component Wish: Item {
        id: wish

        property alias choices: keys.choices
        property alias columns: keys.columns
        property alias itemName: keys.itemName
        property string title

        signal chosen(int row)

        height: keys.height
        width: root.width

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
}
