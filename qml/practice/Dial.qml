// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick

/// A round dial as it hangs on a cart: a mark for each division, a number at each main one, a needle. What it shows is to
/// be read; nothing says it. A needle that swings moves; where nothing is to move, two needles stand at the ends of its swing.
Item {
    id: root

    readonly property real at: root.low
    readonly property int divisions: Math.round(root.span / root.graduation)
    property real graduation: 1
    property real high: 0
    property var labels: []
    property real low: 0
    property string name
    readonly property real radius: Math.min(root.width, root.height) / 2
    readonly property real reach: 270
    property real span: 1
    property string spoken
    readonly property bool swings: root.high > root.low
    property string unit

    function angleOf(value: real): real {
        return value / root.span * root.reach - root.reach / 2;
    }

    Accessible.name: root.spoken
    Accessible.role: Accessible.Dial

    Rectangle {
        id: face
        anchors.centerIn: parent
        border.color: Theme.ink
        border.width: Theme.strokeHeavy
        color: Theme.panel
        height: width
        radius: width / 2
        width: 2 * root.radius
    }
    Repeater {
        model: root.divisions + 1

        delegate: Item {
            id: mark

            required property int index
            readonly property bool isMain: mark.index % 10 === 0
            readonly property bool isMiddle: mark.index % 5 === 0

            height: root.radius
            rotation: root.angleOf(mark.index * root.graduation)
            transformOrigin: Item.Bottom
            x: root.width / 2
            y: root.height / 2 - root.radius

            Rectangle {
                color: Theme.ink
                height: root.radius * (mark.isMain ? 0.16 : mark.isMiddle ? 0.12 : 0.08)
                width: mark.isMain ? Theme.stroke * 1.5 : Theme.stroke * 0.6
                x: -width / 2
                y: Theme.strokeHeavy + root.radius * 0.03
            }
        }
    }
    Repeater {
        model: root.labels

        delegate: Label {
            id: number

            required property int index
            required property string modelData
            /// From the middle to where its box ends: short of the marks, whatever its size.
            readonly property real reach: root.radius * 0.77 - Theme.strokeHeavy - Math.abs(Math.cos(number.turn)) * number.width / 2 - Math.abs(Math.sin(number.turn)) * number.height / 2
            readonly property real turn: (root.angleOf(number.index * root.span / (root.labels.length - 1)) - 90) * Math.PI / 180

            Accessible.ignored: true
            font.pixelSize: Math.max(Theme.textLeast, root.radius * 0.13)
            isStrong: true
            text: number.modelData
            x: root.width / 2 + Math.cos(number.turn) * number.reach - width / 2
            y: root.height / 2 + Math.sin(number.turn) * number.reach - height / 2
        }
    }
    Column {
        anchors.horizontalCenter: parent.horizontalCenter
        y: root.height / 2 + root.radius * 0.36

        Label {
            Accessible.ignored: true
            anchors.horizontalCenter: parent.horizontalCenter
            font.pixelSize: Math.max(Theme.textLeast, Math.min(Theme.textStrong, root.radius * 0.2))
            isStrong: true
            text: root.name
        }
        Label {
            Accessible.ignored: true
            anchors.horizontalCenter: parent.horizontalCenter
            font.pixelSize: Math.max(Theme.textLeast, Math.min(Theme.textBody, root.radius * 0.17))
            text: root.unit
        }
    }
    Needle {
        objectName: "needleHigh"
        rotation: root.angleOf(root.high)
        visible: root.swings && Theme.isStill
    }
    Needle {
        id: needle
        objectName: "needle"
        rotation: root.angleOf(root.low)

        SequentialAnimation on rotation  {
            loops: Animation.Infinite
            running: root.swings && root.visible && !Theme.isStill

            onRunningChanged: {
                if (!running) {
                    needle.rotation = Qt.binding(() => root.angleOf(root.low));
                }
            }

            NumberAnimation {
                duration: Theme.flashMs
                easing.type: Easing.InOutSine
                from: root.angleOf(root.low)
                to: root.angleOf(root.high)
            }
            NumberAnimation {
                duration: Theme.flashMs
                easing.type: Easing.InOutSine
                from: root.angleOf(root.high)
                to: root.angleOf(root.low)
            }
        }
    }
    Rectangle {
        anchors.centerIn: parent
        color: Theme.ink
        height: width
        radius: width / 2
        width: root.radius * 0.16
    }

    component Needle: Item {
        height: root.radius
        transformOrigin: Item.Bottom
        x: root.width / 2
        y: root.height / 2 - root.radius

        Rectangle {
            color: Theme.ink
            height: root.radius * 0.86
            radius: width / 2
            width: Theme.stroke * 1.6
            x: -width / 2
            y: root.radius * 0.14
        }
    }
}
