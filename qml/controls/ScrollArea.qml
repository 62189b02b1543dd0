// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Window

/// Room for what may be higher than it: scrolls by finger, and by two keys beside it as long as there is more. What gets the
/// keyboard is brought into sight. What stands in it is as wide as `room`, and may be as high as `least` without scrolling.
Item {
    id: root

    default property alias content: body.data
    /// Of what stands in it.
    property real contentHeight: body.childrenRect.height
    readonly property Item focused: Window.activeFocusItem
    /// Both keys have room apart from each other; else the one that goes on stands alone.
    readonly property bool hasRoomForTwo: root.height >= 2 * Theme.touchSmall + Theme.gap
    property bool isLong: false
    /// Height of what is seen at once.
    readonly property real least: root.height
    readonly property real room: root.isLong ? Math.floor(root.width - Theme.touchSmall - Theme.gap) : root.width
    /// Which thing is shown: another one is shown from its top.
    property string shows

    /// Scrolls as little as shows `item`, which stands in it.
    function bringIntoSight(item: Item) {
        root.layOut(body);
        root.measure();
        root.layOut(body);
        const top = item.mapToItem(body, 0, 0).y;
        flick.contentY = Math.max(0, Math.min(top, Math.max(flick.contentY, top + item.height - flick.height)));
    }
    /// Rows and columns give their parts a place with the next frame: what is to be shown wants it now.
    function layOut(item: Item) {
        for (let i = 0; i < item.children.length; i++) {
            root.layOut(item.children[i]);
        }
        if (item.forceLayout) {
            item.forceLayout();
        }
    }
    /// Later, so that what stands in it has its size: a width that hangs on a height would go round in circles.
    function measure() {
        root.isLong = root.contentHeight > root.height + 1;
    }
    function reveal() {
        let item = root.focused;
        while (item && item !== body) {
            item = item.parent;
        }
        if (item === body && root.focused) {
            root.bringIntoSight(root.focused);
        }
    }
    function turn(by: real) {
        flick.contentY = Math.max(0, Math.min(flick.contentHeight - flick.height, flick.contentY + by * flick.height * 0.8));
    }

    onContentHeightChanged: Qt.callLater(root.measure)
    onFocusedChanged: Qt.callLater(root.reveal)
    onHeightChanged: Qt.callLater(root.measure)
    onShowsChanged: flick.contentY = 0

    Flickable {
        id: flick
        boundsBehavior: Flickable.StopAtBounds
        clip: root.isLong
        contentHeight: Math.max(root.contentHeight, height)
        height: root.height
        interactive: root.isLong
        width: root.room

        Item {
            id: body
            height: flick.contentHeight
            width: flick.width
        }
    }
    // Where a line is cut, an edge says that it is the page that goes on, not the words that are lost.
    Rectangle {
        color: Theme.dim
        height: Theme.stroke
        visible: root.isLong && flick.contentY > 0
        width: root.room
        y: -height
    }
    Rectangle {
        color: Theme.dim
        height: Theme.stroke
        visible: root.isLong && flick.contentY < flick.contentHeight - flick.height - 1
        width: root.room
        y: root.height
    }
    BigKey {
        anchors.right: parent.right
        enabled: flick.contentY > 0
        height: Theme.touchSmall
        objectName: "scrollUp"
        repeats: true
        sign: "up"
        spoken: Theme.upSpoken
        visible: root.isLong && (root.hasRoomForTwo || !down.enabled)
        width: Theme.touchSmall

        onPressed: root.turn(-1)
    }
    BigKey {
        id: down
        anchors.bottom: parent.bottom
        anchors.right: parent.right
        enabled: flick.contentY < flick.contentHeight - flick.height - 1
        height: Theme.touchSmall
        objectName: "scrollDown"
        repeats: true
        sign: "down"
        spoken: Theme.downSpoken
        visible: root.isLong && (root.hasRoomForTwo || down.enabled)
        width: Theme.touchSmall

        onPressed: root.turn(1)
    }
}
