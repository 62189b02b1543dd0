// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A key for a gloved finger: says what it does, or what a person did. Works by touch, mouse and keyboard.
///
/// Touch does not take the keyboard away from where it is; only Tab does.
Rectangle {
    id: root

    property int align: Text.AlignHCenter
    /// A second, smaller line.
    property string detail
    property real detailSize: Theme.textSmall
    /// Of the frame, where nothing else gives it one.
    property color edge: Theme.keyLine
    /// What a frame takes at the upper and lower edge together, and a little more; where letters are large there is no such room.
    readonly property real edgeRoom: Math.max(Theme.gapSmall, 2 * root.focusRoom, root.isMarked && root.wrapsDetail && !Theme.isLarge ? 2 * Theme.strokeHeavy + Theme.stroke : 0)
    /// What the frame of focus, or of a state that holds, takes at each edge; letters keep clear of it.
    readonly property real focusRoom: root.activeFocus ? Theme.strokeHeavy + Theme.stroke * 2 : 0
    readonly property real frameRoom: root.isMarked && !Theme.isLarge ? Theme.strokeHeavy + Theme.stroke : 0
    readonly property bool hasDetail: root.isDetailShown && root.detail !== ""
    property bool isDetailShown: true
    /// Something waits behind it: the colour of caution. Words and a shape say what.
    property bool isLoud: false
    /// The one thing to do next.
    property bool isMain: false
    /// The state that holds now: a frame, and words in `detail`.
    property bool isMarked: false
    /// A name that is cut rather than wrapped.
    property bool isOneLine: false
    /// A quick second touch counts too. Else it is taken for a slip, so that no step is confirmed unread.
    property bool repeats: false
    /// A shape of `Sign`, instead of the text or left of it.
    property string sign
    readonly property real signRoom: root.sign !== "" && root.text !== "" ? root.signSize + Theme.gapSmall : 0
    /// Where it stands left of the text.
    property real signSize: Theme.sign
    /// Read out instead of the text, where the text is a sign.
    property string spoken: root.text
    property string text
    readonly property color textColor: root.isMain && root.enabled ? Theme.actInk : root.isLoud ? Theme.cautionInk : root.enabled ? Theme.ink : Theme.off
    property real textSize: Theme.textBody

    /// The second line may take two.
    property bool wrapsDetail: root.align === Text.AlignLeft

    signal pressed

    function pressOnce(isHeld: bool) {
        if (root.repeats || !isHeld) {
            root.pressed();
        }
    }

    Accessible.checked: root.isMarked
    Accessible.description: root.detail
    Accessible.focusable: true
    Accessible.name: root.spoken
    Accessible.role: Accessible.Button
    activeFocusOnTab: true
    border.color: root.isMarked || root.activeFocus ? Theme.act : root.enabled ? root.edge : Theme.line
    border.width: root.isMarked || root.activeFocus ? Theme.strokeHeavy : root.enabled ? Theme.stroke : 0
    color: root.isMain && root.enabled ? Theme.act : root.isLoud ? Theme.caution : area.pressed ? Theme.shade : root.enabled ? Theme.key : Theme.ground
    implicitHeight: Theme.touch
    implicitWidth: Theme.touch
    radius: Theme.radius

    Accessible.onPressAction: root.pressed()
    Keys.onEnterPressed: event => root.pressOnce(event.isAutoRepeat)
    Keys.onReturnPressed: event => root.pressOnce(event.isAutoRepeat)
    Keys.onSpacePressed: event => root.pressOnce(event.isAutoRepeat)

    Rectangle {
        anchors.fill: parent
        anchors.margins: Theme.strokeHeavy
        border.color: root.isMain ? Theme.actInk : Theme.act
        border.width: Theme.stroke
        color: "transparent"
        radius: Theme.radius
        visible: root.activeFocus || root.isMain && area.pressed
    }
    Loader {
        active: !root.enabled && !root.isMarked
        anchors.fill: parent

        sourceComponent: DashedFrame {
        }
    }
    Sign {
        anchors.horizontalCenter: root.text === "" ? parent.horizontalCenter : undefined
        anchors.left: root.text === "" ? undefined : parent.left
        anchors.leftMargin: Theme.gapSmall + Theme.stroke
        anchors.verticalCenter: parent.verticalCenter
        isOnState: root.isLoud
        kind: root.sign
        size: root.text === "" ? Theme.signLarge : root.signSize
        visible: root.sign !== ""
    }
    Column {
        anchors.left: parent.left
        anchors.leftMargin: Math.max(root.focusRoom, root.frameRoom, Theme.gapSmall + (root.align === Text.AlignLeft ? Theme.stroke : 0)) + root.signRoom
        anchors.right: parent.right
        anchors.rightMargin: Math.max(root.focusRoom, root.frameRoom, root.align === Text.AlignLeft ? Theme.gapSmall / 2 : Theme.gapSmall + root.signRoom)
        anchors.verticalCenter: parent.verticalCenter

        Label {
            Accessible.ignored: true
            color: root.textColor
            elide: root.isOneLine ? Text.ElideRight : Text.ElideNone
            font.pixelSize: root.textSize
            fontSizeMode: root.isOneLine ? Text.HorizontalFit : Text.Fit
            height: Math.min(implicitHeight, root.height - root.edgeRoom - (root.hasDetail ? second.height : 0))
            horizontalAlignment: root.align
            isStrong: true
            minimumPixelSize: Theme.textLeast
            text: root.text
            verticalAlignment: Text.AlignVCenter
            width: parent.width
            wrapMode: root.isOneLine ? Text.NoWrap : Text.WordWrap
        }
        Label {
            id: second
            Accessible.ignored: true
            clip: true
            color: root.textColor
            elide: Theme.isLarge ? Text.ElideNone : Text.ElideRight
            font.pixelSize: root.detailSize
            fontSizeMode: Theme.isLarge ? Text.Fit : Text.HorizontalFit
            height: Theme.isLarge ? Math.min(implicitHeight, root.height * 0.56) : implicitHeight
            horizontalAlignment: root.align
            maximumLineCount: Theme.isLarge ? 3 : 2
            minimumPixelSize: Theme.textLeast
            text: root.detail
            visible: root.hasDetail
            width: parent.width
            wrapMode: root.wrapsDetail ? Text.WordWrap : Text.NoWrap
        }
    }
    // Not a MouseArea: that swallows the second of two quick touches, so that "110" became "10".
    TapHandler {
        id: area
        gesturePolicy: TapHandler.ReleaseWithinBounds

        // What a key does may take it away and put another in its place; that one must not get the same touch.
        onTapped: root.repeats ? root.pressed() : Qt.callLater(root.pressed) // qmllint disable
    }
}
