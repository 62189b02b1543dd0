// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// How who holds the tablet wants it to be: one row of keys for each.
Column {
    id: root

    required property AppView app
    readonly property PeopleView people: root.app.wishes

    spacing: Theme.gap

    Label {
        font.pixelSize: Theme.textTitle
        isStrong: true
        text: root.people.name
        width: parent.width
    }
    Wish {
        choices: root.people.languages
        itemName: "language"
        title: root.app.label("app.people.language")
        width: root.width

        onChosen: row => root.people.chooseLanguage(row)
    }
    Wish {
        choices: root.people.themes
        itemName: "theme"
        title: root.app.label("app.people.theme")
        width: root.width

        onChosen: row => root.people.chooseTheme(row)
    }
    Wish {
        choices: root.people.hands
        columns: 2
        itemName: "hand"
        title: root.app.label("app.people.hand")
        width: root.width

        onChosen: row => root.people.chooseHand(row)
    }
    Wish {
        choices: root.people.textSizes
        columns: 4
        itemName: "textSize"
        title: root.app.label("app.people.text")
        width: root.width

        onChosen: row => root.people.chooseTextSize(row)
    }
    Wish {
        choices: root.people.motions
        columns: 2
        itemName: "motion"
        title: root.app.label("app.people.motion")
        width: root.width

        onChosen: row => root.people.chooseMotion(row)
    }
    Wish {
        choices: root.app.finder.wishes
        columns: 2
        itemName: "position"
        title: root.app.label("app.nearby.title")
        visible: root.app.finder.isThere
        width: root.width

        onChosen: row => root.app.finder.chooseWish(row)
    }
}
