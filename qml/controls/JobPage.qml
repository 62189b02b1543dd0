// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// A page of a job that is no cleaning run: header, band and edge of its kind around what it holds.
FocusScope {
    id: root

    required property AppView app
    default property alias content: body.data
    /// Under a sheet, that takes no keys.
    property bool isCovered: false
    readonly property bool isTall: root.height > root.width
    /// flush or waste.
    required property string kind
    property string text
    property string title
    /// The fields that the keyboard types into.
    required property FieldsView typed

    signal goOnWanted

    focus: true

    Keys.onPressed: event => {
        if (event.key === Qt.Key_Backspace) {
            root.typed.backspace();
            event.accepted = true;
        } else if (event.key === Qt.Key_Return || event.key === Qt.Key_Enter) {
            root.goOnWanted();
            event.accepted = true;
        } else if (event.text.length === 1 && event.text > " ") {
            root.typed.key(event.text);
            event.accepted = true;
        }
    }

    Header {
        id: header
        app: root.app
        enabled: !root.isCovered
        isLow: true
        width: root.width
    }
    JobBand {
        id: band
        anchors.top: header.bottom
        isTall: root.isTall
        kind: root.kind
        text: root.text
        title: root.title
        width: root.width
    }
    BandPattern {
        anchors.bottom: parent.bottom
        anchors.top: band.bottom
        color: band.color
        ink: band.ink
        kind: root.kind
        width: Theme.gapLarge
    }
    Item {
        id: body
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gap
        anchors.left: parent.left
        anchors.leftMargin: Theme.gapLarge + Theme.gap
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        anchors.top: band.bottom
        anchors.topMargin: Theme.gap
        enabled: !root.isCovered
    }
}
