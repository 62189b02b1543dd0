// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
pragma Singleton
import QtQuick

/// Every colour, size and duration by its role. Sizes are those of a 1280×800 window, times `unit`.
///
/// Oil colours are for oil alone, state colours (ok, caution, danger) for state alone, `act` for what can be done.
/// Text has at least 7:1 on its ground, data lines and edges at least 3:1, in each palette.
QtObject {
    id: root

    readonly property color act: root.pick("#0B4F8A", "#8CC4F5", "#003C7D")
    readonly property color actInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")
    readonly property real band: root.px(36)
    readonly property real bar: root.px(20)
    readonly property color caution: root.pick("#F2B600", "#FFC82E", "#FFD000")
    readonly property color cautionInk: root.pick("#14171A", "#0E1113", "#000000")
    readonly property real chip: root.px(168)
    /// Of a chip with a name of two lines; its letters stay small.
    readonly property real chipHeight: root.px(92)
    readonly property real chipHeightLow: root.px(84)
    readonly property real columnHeight: root.px(132 * root.textScale + (root.isLarge ? 32 : 0))
    readonly property color danger: root.pick("#A31515", "#FF8A80", "#A00000")
    readonly property color dangerInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")
    /// Of the sign of a gauge on its stem.
    readonly property real dial: root.px(22)
    readonly property color dim: root.pick("#454A50", "#B9BEC4", "#000000")
    /// What the keys of a page that scrolls are called.
    property string downSpoken
    readonly property string family: "B612"

    /// One half of a flash: 2 Hz, inside the 1.4 to 2.8 Hz for alerts.
    readonly property int flashMs: 250

    /// A flush and a transfer to waste look like no other page: a band and an edge of their own.
    readonly property color flush: root.pick("#00525C", "#74D3DC", "#00424A")
    readonly property color flushInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")
    readonly property real frame: root.px(28)
    readonly property real gap: root.px(12)
    readonly property real gapLarge: root.px(24)
    readonly property real gapSmall: root.px(6)
    readonly property real gaugeHeight: root.px(52 * (1 + (root.textScale - 1) * 0.5))
    readonly property real gaugeWidth: root.px(124)
    readonly property color ground: root.pick("#ECE9E1", "#0E1113", "#FFFFFF")
    readonly property color ink: root.pick("#14171A", "#F1EEE6", "#000000")
    /// Text so large that what stands side by side goes below each other.
    readonly property bool isLarge: root.textScale > 1.2
    /// The keys stand at the left.
    property bool isLeftHanded: false
    /// Nothing flashes or moves.
    property bool isStill: false
    readonly property color key: root.pick("#FFFFFF", "#232A30", "#FFFFFF")
    readonly property color keyLine: root.pick("#7E796D", "#7A858F", "#000000")
    readonly property color limit: root.pick("#A31515", "#FF8A80", "#A00000")
    readonly property color line: root.pick("#C9C4B8", "#3A4148", "#000000")
    readonly property real lineHeight: root.px(77 * (1 + (root.textScale - 1) * 0.4))

    /// day, night or sun.
    property string name: "day"
    /// Letters and frame of a key that cannot be touched now: still to be read.
    readonly property color off: root.pick("#454A50", "#B9BEC4", "#4A4A4A")

    /// The oil gets lighter after each stage.
    readonly property color oil1: root.pick("#5A3600", "#7A4C08", "#4A2C00")
    readonly property color oil2: root.pick("#8F5F10", "#A9741C", "#7A4C00")
    readonly property color oil3: root.pick("#BD8A2C", "#CF9E40", "#B07A10")
    readonly property color oil4: root.pick("#DDB45C", "#EBCB80", "#DDB050")
    readonly property color oilInk: root.pick("#FFFFFF", "#FFFFFF", "#FFFFFF")
    readonly property color ok: root.pick("#14603A", "#7FD6A2", "#00532B")
    readonly property color okInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")
    readonly property real padSide: root.px(130)
    readonly property color panel: root.pick("#FBFAF6", "#171B1F", "#FFFFFF")
    readonly property real pipe: root.px(13)
    /// Practice looks like no page of work: a colour and a pattern of its own.
    readonly property color practice: root.pick("#6E1F63", "#F0A9DF", "#5C0050")
    readonly property color practiceInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")
    readonly property real radius: root.px(6)
    readonly property real rail: root.px(204)
    readonly property real ring: root.px(86)
    readonly property color scrim: root.pick("#B014171A", "#C0000000", "#C0000000")
    readonly property real setupSide: root.px(300)
    readonly property color shade: root.pick("#E4DFD2", "#2A3138", "#FFFFFF")
    readonly property real sheet: root.px(640)
    readonly property real sign: root.px(26)
    readonly property real signAlarm: root.px(190)
    readonly property real signLarge: root.px(46)
    readonly property color stage1: root.pick("#0B4F8A", "#8CC4F5", "#003C7D")
    readonly property color stage2: root.pick("#6A3B8C", "#D3A8F0", "#5A1B7A")
    readonly property color stage3: root.pick("#2F5A58", "#9ED8D2", "#000000")
    readonly property real stroke: root.px(root.name === "sun" ? 3 : 2)
    readonly property real strokeHeavy: root.px(root.name === "sun" ? 6 : 5)
    readonly property real symbol: root.px(60)
    readonly property real tank: root.px(100)
    readonly property real textAlarm: root.letters(52)
    readonly property real textBody: root.letters(18)
    readonly property real textKey: root.letters(44)
    /// Letters on a key that has its size may get as small as this.
    readonly property real textLeast: root.px(15)
    readonly property real textNumber: root.letters(36)
    /// How large text is wanted: 1, 1.3, 1.6 or 2.
    property real textScale: 1
    readonly property real textSmall: root.letters(15)
    readonly property real textStrong: root.letters(22)
    readonly property real textTitle: root.letters(26)

    /// Keys for gloves; small keys and fields, which have words in two lines and grow with them.
    readonly property real touch: root.px(118)
    /// Small keys that have no room to grow.
    readonly property real touchLeast: root.px(71)
    readonly property real touchSmall: root.px(71 * (1 + (root.textScale - 1) * 0.4))
    /// A trend needs so much height, four lines and its margins, or `paintTrend` draws nothing; where there is less, that is
    /// said, or with large text the page scrolls.
    readonly property real trendLeast: 4 * root.textSmall + 2 * root.gapSmall
    /// Pixels for one pixel of a 1280×800 window.
    property real unit: 1
    property string upSpoken
    readonly property color waste: root.pick("#33302A", "#D9D2C3", "#000000")
    readonly property color wasteInk: root.pick("#FFFFFF", "#0E1113", "#FFFFFF")

    /// Text up to 18 grows as wanted; what is large already grows less, and 60 not at all, so that the order of sizes stays.
    function letters(size: real): real {
        return root.px(size * (1 + (root.textScale - 1) * Math.max(0, Math.min(1, (60 - size) / 42))));
    }
    function pick(day: string, night: string, sun: string): string {
        return root.name === "night" ? night : root.name === "sun" ? sun : day;
    }
    function px(size: real): real {
        return Math.round(size * root.unit);
    }
}
