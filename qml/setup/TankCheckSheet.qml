// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Is this the right tank? Plate or tag as it reads, the oil that the plate names, and what was looked at so far.
Sheet {
    id: root

    required property AppView app
    readonly property TankCheck check: root.app.setup.tankCheck

    signal closed

    function compare() {
        if (typed.text.trim() !== "") {
            root.check.takeTyped(typed.text);
            typed.text = "";
        }
    }

    room: Theme.sheet * 1.5
    text: root.app.label("app.right-tank.how")
    title: root.check.title

    onClosed: root.check.stopCamera()

    Row {
        spacing: Theme.gap
        width: parent.width

        TextLine {
            id: typed
            hint: root.app.label("app.right-tank.typed")
            objectName: "tankTyped"
            width: (parent.width - Theme.gap) * 2 / 3

            Keys.onEnterPressed: root.compare()
            Keys.onReturnPressed: root.compare()
        }
        BigKey {
            enabled: typed.text.trim() !== ""
            height: typed.height
            objectName: "tankCompare"
            text: root.app.label("app.right-tank.compare")
            textSize: Theme.textStrong
            width: (parent.width - Theme.gap) / 3

            onPressed: root.compare()
        }
    }
    PictureItem {
        Accessible.name: root.app.label("app.right-tank.camera")
        Accessible.role: Accessible.Graphic
        height: Theme.touch * 3
        image: root.check.seen
        visible: root.check.isCameraOn
        width: parent.width
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "tankCamera"
        text: root.app.label(root.check.isCameraOn ? "app.right-tank.camera-stop" : "app.right-tank.camera")
        textSize: Theme.textStrong
        visible: root.check.hasCamera
        width: parent.width

        onPressed: root.check.isCameraOn ? root.check.stopCamera() : root.check.lookByCamera()
    }
    BigKey {
        height: Theme.touchSmall
        objectName: "tankPicture"
        text: root.app.label(root.check.isChoosingPicture ? "app.right-tank.picture-back" : "app.right-tank.picture")
        textSize: Theme.textStrong
        visible: !root.check.hasCamera || root.check.isChoosingPicture
        width: parent.width

        onPressed: root.check.choosePicture()
    }
    ChoiceList {
        choices: root.check.pictures
        itemName: "tankPictureFile"
        moreText: root.app.label("label.more")
        places: 3
        visible: root.check.isChoosingPicture
        width: parent.width

        onChosen: row => root.check.takePictureFile(row)
    }
    NoteLine {
        kind: "caution"
        objectName: "tankPictureText"
        text: root.check.pictureText
        visible: text !== ""
        width: parent.width
    }
    Label {
        isStrong: true
        text: root.app.label("app.right-tank.oil")
        width: parent.width
    }
    ChoiceGrid {
        choices: root.check.oils
        columns: root.width < root.height || Theme.isLarge ? 2 : 3
        itemName: "tankOil"
        width: parent.width

        onChosen: row => root.check.takeOil(row)
    }
    NoteList {
        notes: root.check.looks
        width: parent.width
    }
    Row {
        spacing: Theme.gap
        width: parent.width

        NoteLine {
            anchors.verticalCenter: parent.verticalCenter
            kind: root.check.knownSign
            objectName: "tankKnown"
            text: root.check.knownText
            width: (parent.width - Theme.gap) * 2 / 3
        }
        BigKey {
            isMain: true
            objectName: "tankCheckBack"
            text: root.app.label("label.back")
            textSize: Theme.textStrong
            width: (parent.width - Theme.gap) / 3

            onPressed: root.closed()
        }
    }
}
