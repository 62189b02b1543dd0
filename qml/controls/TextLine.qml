// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A line of own words, typed on a keyboard.
Rectangle {
    id: root

    property string hint
    /// Where what is typed is stored as it is typed; null: nowhere.
    property OwnWords kept: null
    property alias text: input.text

    signal edited

    function takeKept() {
        if (root.kept !== null && input.text !== root.kept.text) {
            input.text = root.kept.text;
        }
    }

    border.color: input.activeFocus ? Theme.act : Theme.keyLine
    border.width: input.activeFocus ? Theme.strokeHeavy : Theme.stroke
    color: Theme.key
    implicitHeight: Theme.touchSmall
    radius: Theme.radius

    Component.onCompleted: root.takeKept()

    Connections {
        function onChanged() {
            root.takeKept();
        }

        target: root.kept
    }
    TextInput {
        id: input
        Accessible.name: root.hint
        Accessible.role: Accessible.EditableText
        activeFocusOnTab: true
        anchors.fill: parent
        clip: true
        color: Theme.ink
        font.family: Theme.family
        font.pixelSize: Theme.textStrong
        maximumLength: 160
        padding: Theme.gap
        selectByMouse: true
        verticalAlignment: TextInput.AlignVCenter

        onTextEdited: {
            if (root.kept !== null) {
                root.kept.text = input.text;
            }
            root.edited();
        }
    }
    Label {
        Accessible.ignored: true
        anchors.left: parent.left
        anchors.leftMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        color: Theme.dim
        text: root.hint
        visible: input.text === ""
    }
}
