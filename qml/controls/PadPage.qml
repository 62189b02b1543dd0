// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A page where something is typed that belongs to no run: header, title, room in two columns, pad and main key. A
/// keyboard types into its fields.
FocusScope {
    id: root

    required property AppView app
    property alias caution: panel.caution
    readonly property real column: (panel.room.width - Theme.gapLarge) / 2
    default property alias content: panel.content
    property alias contentHeight: panel.contentHeight
    required property FieldsView fields
    property bool hasPad: true
    /// Under a sheet, that takes no keys.
    property bool isCovered: false
    readonly property bool isTall: root.height > root.width
    property string leaveText: root.app.label("label.back")
    property string mainText
    property string problem
    readonly property alias room: panel.room
    property alias shows: panel.shows
    property string title

    signal leaving
    signal pressed

    focus: true

    Keys.onPressed: event => {
        if (event.key === Qt.Key_Backspace) {
            root.fields.backspace();
            event.accepted = true;
        } else if (event.key === Qt.Key_Return || event.key === Qt.Key_Enter) {
            if (root.problem === "" && !event.isAutoRepeat) {
                root.pressed();
            }
            event.accepted = true;
        } else if (event.text.length === 1 && event.text >= " ") {
            root.fields.key(event.text);
            event.accepted = true;
        }
    }

    Header {
        id: header
        app: root.app
        enabled: !root.isCovered
        title: root.title
        width: root.width
    }
    JobPanel {
        id: panel
        anchors.bottom: parent.bottom
        anchors.left: parent.left
        anchors.margins: Theme.gap
        anchors.right: parent.right
        anchors.top: header.bottom
        app: root.app
        enabled: !root.isCovered
        fields: root.fields
        hasPad: root.hasPad
        isTall: root.isTall
        leaveText: root.leaveText
        mainText: root.mainText
        problem: root.problem

        onLeaving: root.leaving()
        onPressed: root.pressed()
    }
}
