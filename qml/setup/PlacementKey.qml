// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// One way to place the hoses, drawn, with what it is counted as.
BigKey {
    id: root

    required property bool isChosen
    required property string name
    required property int row

    Accessible.checkable: true
    Accessible.checked: root.isChosen
    Accessible.role: Accessible.RadioButton
    implicitHeight: Theme.touch * 1.7
    isMarked: root.isChosen
    spoken: root.name

    HosePicture {
        height: parent.height * 0.44
        row: root.row
        width: parent.width - 2 * Theme.gap
        x: Theme.gap
        y: Theme.gap
    }
    Sign {
        anchors.right: parent.right
        anchors.rightMargin: Theme.gapSmall
        kind: root.isChosen ? "done" : "later"
        y: Theme.gapSmall
    }
    Column {
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gapSmall
        anchors.left: parent.left
        anchors.margins: Theme.gapSmall
        anchors.right: parent.right

        Label {
            Accessible.ignored: true
            fontSizeMode: Text.Fit
            height: Theme.touch * 0.5
            horizontalAlignment: Text.AlignHCenter
            isStrong: true
            minimumPixelSize: Theme.textLeast
            text: root.name
            verticalAlignment: Text.AlignVCenter
            width: parent.width
            wrapMode: Text.WordWrap
        }
        Label {
            Accessible.ignored: true
            font.pixelSize: Theme.textSmall
            fontSizeMode: Text.HorizontalFit
            horizontalAlignment: Text.AlignHCenter
            minimumPixelSize: Theme.textLeast
            text: root.detail
            width: parent.width
        }
    }
}
