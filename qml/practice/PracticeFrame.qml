// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Over and around every screen of an exercise: the word, a pattern, the clock of the exercise. Lets every touch through.
Item {
    id: root

    required property AppView app
    /// Half of the margin of a page, so that letters keep clear of it.
    readonly property real edge: Theme.gapSmall

    Edge {
        height: parent.height
        width: root.edge
    }
    Edge {
        anchors.right: parent.right
        height: parent.height
        width: root.edge
    }
    Edge {
        anchors.bottom: parent.bottom
        height: root.edge
        width: parent.width
    }
    Rectangle {
        id: strip
        Accessible.name: words.text + ". " + clock.text
        Accessible.role: Accessible.Heading
        color: Theme.practice
        height: Theme.frame + Theme.gapSmall
        objectName: "practiceMark"
        width: parent.width

        Edge {
            height: parent.height
            width: Theme.touch * 0.6
        }
        Edge {
            anchors.right: parent.right
            height: parent.height
            width: Theme.touch * 0.6
        }
        Label {
            id: words
            Accessible.ignored: true
            anchors.left: parent.left
            anchors.leftMargin: Theme.touch * 0.6 + Theme.gap
            anchors.right: clock.left
            anchors.rightMargin: Theme.gap
            anchors.verticalCenter: parent.verticalCenter
            color: Theme.practiceInk
            fontSizeMode: Text.Fit
            height: parent.height
            isStrong: true
            minimumPixelSize: Theme.textLeast
            text: root.app.label("label.practice-mark")
            verticalAlignment: Text.AlignVCenter
        }
        Label {
            id: clock
            Accessible.ignored: true
            anchors.right: parent.right
            anchors.rightMargin: Theme.touch * 0.6 + Theme.gap
            anchors.verticalCenter: parent.verticalCenter
            color: Theme.practiceInk
            font.pixelSize: Theme.px(18)
            isStrong: true
            text: root.app.exercise ? root.app.exercise.clockText : ""
            wrapMode: Text.NoWrap
        }
    }

    component Edge: BandPattern {
        color: Theme.practice
        ink: Theme.practiceInk
        kind: "practice"
    }
}
