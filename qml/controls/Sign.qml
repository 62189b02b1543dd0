// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The shape of a state, so that no state is colour alone. Words stand beside it.
///
/// Kinds: ok, done (tick); caution (warning triangle); limit (arrow at a bar); stop (disc); unknown (question mark);
/// note (i in a square); now (arrow), later (ring); flow (arrow in a pipe); mark (points down at a place); back (the delete key);
/// up, down (the keys of what scrolls).
/// A verdict: slower, warm (triangles with an arrow down, up), no-go (disc with a bar across).
/// A job that cleans no tank: flush (two arrows through), waste (arrow into a tray).
Item {
    id: root

    /// True where the ground has the colour of the state: the shape is then drawn by its outline.
    property bool isOnState: false
    required property string kind
    readonly property color markColor: root.markColorOf(root.kind)
    property real size: Theme.sign

    function fillOf(kind: string): color {
        switch (kind) {
        case "ok":
            return Theme.ok;
        case "done":
            return Theme.ink;
        case "mark":
            return Theme.panel; // hollow, so that it passes for no needle
        case "caution":
        case "limit":
        case "slower":
        case "warm":
            return Theme.caution;
        case "stop":
        case "no-go":
            return Theme.danger;
        case "now":
            return Theme.act;
        case "flow":
            return Theme.panel;
        }
        return "transparent";
    }
    function lineOf(kind: string): color {
        switch (kind) {
        case "caution":
        case "limit":
        case "slower":
        case "warm":
            return Theme.name === "night" ? Theme.caution : Theme.ink;
        case "unknown":
        case "note":
        case "later":
        case "left-out":
        case "mark":
        case "back":
        case "flush":
        case "waste":
        case "up":
        case "down":
            return Theme.ink;
        }
        return root.fillOf(kind);
    }
    function markColorOf(kind: string): color {
        switch (kind) {
        case "ok":
            return Theme.okInk;
        case "done":
            return Theme.panel;
        case "caution":
        case "limit":
        case "slower":
        case "warm":
            return Theme.cautionInk;
        case "stop":
        case "no-go":
            return Theme.dangerInk;
        case "unknown":
            return root.isOnState ? Theme.cautionInk : Theme.ink;
        }
        return Theme.ink;
    }
    function markOf(kind: string): string {
        switch (kind) {
        case "ok":
        case "done":
            return "M7 12.5 L10.8 16.2 L17.2 8.2";
        case "caution":
            return "M12 9 L12 15 M12 18.3 L12 18.4";
        case "limit":
            return "M5.5 12 L13 12 M10 8.5 L13.5 12 L10 15.5 M17.5 6.5 L17.5 17.5";
        case "stop":
            return "M12 6.5 L12 13.5 M12 17.3 L12 17.4";
        case "slower":
            return "M12 9 L12 18.5 M8.5 15 L12 18.8 L15.5 15";
        case "warm":
            return "M12 18.5 L12 9.5 M8.5 13 L12 9.3 L15.5 13";
        case "no-go":
            return "M6.2 17.8 L17.8 6.2";
        case "flush":
            return "M6.5 7 L11 12 L6.5 17 M13 7 L17.5 12 L13 17";
        case "waste":
            return "M12 5 L12 13.5 M8.5 10.5 L12 14 L15.5 10.5 M6 14 L6 18.5 L18 18.5 L18 14";
        case "unknown":
            return "M9 9.6 C9 5.5 15 5.5 15 9.4 C15 11.6 12 11.6 12 14 M12 17.5 L12 17.6";
        case "note":
            return "M12 11 L12 17.5 M12 6.9 L12 7";
        case "left-out":
            return "M7 12 L17 12";
        case "back":
            return "M11.5 9 L17.5 15 M17.5 9 L11.5 15";
        }
        return "";
    }
    function outlineOf(kind: string): string {
        switch (kind) {
        case "caution":
        case "slower":
        case "warm":
            return "M12 2 L23 21.5 L1 21.5 Z";
        case "limit":
        case "flush":
        case "waste":
        case "note":
            return "M2.5 2.5 L21.5 2.5 L21.5 21.5 L2.5 21.5 Z";
        case "now":
            return "M5 3 L21 12 L5 21 Z";
        case "flow":
            return "M7 5 L19 12 L7 19 Z";
        case "mark":
            return "M2 2 L22 2 L12 22 Z";
        case "up":
            return "M12 4 L21 19 L3 19 Z";
        case "down":
            return "M12 20 L21 5 L3 5 Z";
        case "back":
            return "M8 5 L22 5 L22 19 L8 19 L2 12 Z";
        }
        return "M12 2 C17.5 2 22 6.5 22 12 C22 17.5 17.5 22 12 22 C6.5 22 2 17.5 2 12 C2 6.5 6.5 2 12 2 Z";
    }

    Accessible.ignored: true
    implicitHeight: root.size
    implicitWidth: root.size

    Figure {
        anchors.fill: parent
        grid: 24

        Stroke {
            fill: root.fillOf(root.kind)
            join: Stroke.RoundJoin
            line: root.isOnState ? root.markColor : root.lineOf(root.kind)
            path: root.outlineOf(root.kind)
            width: 1.8
        }
        Stroke {
            cap: Stroke.RoundCap
            join: Stroke.RoundJoin
            line: root.markColor
            path: root.markOf(root.kind)
            width: 2.4
        }
    }
}
