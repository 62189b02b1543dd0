// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A gauge on its stem under the line: its sign, below it name, unit and the value of the last logged set.
Item {
    id: root

    property string name
    property string spoken
    property real stem
    property string unitText
    property string valueText

    Accessible.name: root.spoken
    Accessible.role: Accessible.StaticText
    implicitHeight: root.stem + Theme.gaugeHeight
    implicitWidth: Theme.gaugeWidth

    Rectangle {
        anchors.horizontalCenter: parent.horizontalCenter
        color: Theme.ink
        height: root.stem
        width: Theme.stroke * 1.5
    }
    GaugeSign {
        anchors.horizontalCenter: parent.horizontalCenter
        y: root.stem - height
    }
    Rectangle {
        border.color: Theme.ink
        border.width: Theme.stroke * 1.5
        color: Theme.panel
        height: Theme.gaugeHeight
        radius: Theme.radius
        width: root.width
        y: root.stem

        Column {
            id: names
            anchors.left: parent.left
            anchors.leftMargin: Theme.gapSmall + Theme.stroke
            anchors.verticalCenter: parent.verticalCenter

            Label {
                Accessible.ignored: true
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                isStrong: true
                text: root.name
            }
            Label {
                Accessible.ignored: true
                color: Theme.dim
                font.pixelSize: Theme.textSmall
                text: root.unitText
            }
        }
        Label {
            Accessible.ignored: true
            anchors.left: names.right
            anchors.leftMargin: Theme.gapSmall
            anchors.right: parent.right
            anchors.rightMargin: Theme.gapSmall + Theme.stroke
            anchors.verticalCenter: parent.verticalCenter
            font.pixelSize: Theme.textNumber
            fontSizeMode: Text.HorizontalFit
            horizontalAlignment: Text.AlignRight
            isStrong: true
            minimumPixelSize: Theme.textLeast
            objectName: root.name + "Value"
            text: root.valueText
            wrapMode: Text.NoWrap
        }
    }
}
