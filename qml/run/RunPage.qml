// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The one screen of the floor: the loop with the last logged set, what it means, the trend, the way to the target; the
/// entry pad always open beside it, or below it where the window is tall.
FocusScope {
    id: root

    required property AppView app
    /// What is under a sheet takes no keys.
    readonly property bool isAtCart: root.app.exercise !== null && root.app.exercise.isAtCart
    readonly property bool isCovered: hint.visible || part.visible || reasons.visible || log.visible || readings.visible || curves.visible || service.visible || notes.visible
    readonly property bool isPadLeft: Theme.isLeftHanded && !root.isTall
    readonly property bool isTall: root.height > root.width

    focus: true

    Item {
        id: left
        enabled: !root.isCovered
        height: root.isTall ? root.height - pad.height : root.height
        width: root.isTall ? root.width : root.width - pad.width
        x: root.isPadLeft ? pad.width : 0

        Header {
            id: header
            app: root.app
            width: parent.width
        }
        ScrollArea {
            id: area

            /// Of the turnovers, and of the key of a trend that has no room, which stands beside them then.
            readonly property real lastHeight: root.isTall ? 0 : Math.max(turnovers.height, area.showsKey ? Theme.touchSmall : 0)
            readonly property bool showsKey: !trend.hasRoom && !root.isTall
            /// Whatever stands beside it then: what hangs on it must not change it.
            readonly property real trendRoom: area.height - trend.y - (root.isTall ? 0 : turnovers.leastHeight + Theme.gap)

            anchors.bottom: bottom.top
            anchors.bottomMargin: Theme.gap
            anchors.top: header.bottom
            anchors.topMargin: Theme.gapSmall
            contentHeight: area.showsKey ? trend.y + area.lastHeight : trend.y + trend.height + (root.isTall ? 0 : area.lastHeight + Theme.gap)
            enabled: !root.isAtCart // the cart stands over it then
            width: parent.width - 2 * Theme.gap
            x: Theme.gap

            RunLine {
                id: line
                run: root.app.run
                seenText: root.app.label("label.seen")
                whyText: root.app.label("label.why")
                wide: area.width
                width: area.room

                onWhy: reasons.visible = true
            }
            Loop {
                id: loop
                hasReadings: readings.count > 0
                readingsText: root.app.label("label.readings-key")
                run: root.app.run
                width: area.room
                y: line.height + Theme.gapSmall

                onReadingsWanted: readings.visible = true
            }
            CautionLine {
                id: caution
                isDense: true
                objectName: "runCaution"
                text: root.app.run.caution
                visible: text !== ""
                width: area.room
                y: loop.y + loop.height + Theme.gapSmall
            }
            NoteLine {
                id: hands
                objectName: "runHands"
                text: root.app.run.handsText
                visible: text !== ""
                width: area.room
                y: (caution.visible ? caution.y + caution.height : loop.y + loop.height) + Theme.gapSmall
            }
            BigKey {
                id: trend

                readonly property bool hasRoom: Theme.isLarge || area.trendRoom >= Theme.trendLeast + (root.isTall ? 0 : Theme.textBody) // a line of the code may wrap

                color: Theme.panel
                height: trend.hasRoom ? Math.max(Theme.trendLeast, area.height - trend.y - (root.isTall ? 0 : turnovers.height + Theme.gap)) : Theme.touchSmall
                objectName: "trend"
                spoken: root.app.label("label.show-trend")
                text: trend.hasRoom ? "" : root.app.label("label.show-trend")
                width: area.showsKey ? Theme.touch : area.room
                x: area.showsKey && Theme.isLeftHanded ? area.room - width : 0
                y: (hands.visible ? hands.y + hands.height : caution.visible ? caution.y + caution.height : loop.y + loop.height) + Theme.gap

                onPressed: curves.visible = true

                RunTrend {
                    anchors.fill: parent
                    anchors.margins: Theme.gapSmall
                    app: root.app
                    visible: trend.hasRoom
                }
            }
            Turnovers {
                id: turnovers
                isCompact: root.isTall || Theme.isLarge
                parent: root.isTall ? bottom : trend.parent
                run: root.app.run
                width: root.isTall ? next.width : area.showsKey ? area.room - trend.width - Theme.gap : area.room
                x: root.isTall ? next.x : area.showsKey && !Theme.isLeftHanded ? trend.width + Theme.gap : 0
                y: root.isTall ? 0 : area.showsKey ? trend.y + (area.lastHeight - turnovers.height) / 2 : trend.y + trend.height + Theme.gap
            }
        }
        Item {
            id: bottom
            anchors.bottom: parent.bottom
            anchors.bottomMargin: Theme.gap
            enabled: !(root.isAtCart && Theme.isLarge) // then over this, too
            height: root.isTall ? Math.max(Theme.touch, turnovers.implicitHeight + Theme.gapSmall + next.implicitHeight) : Theme.touch
            width: parent.width - 2 * Theme.gap
            x: Theme.gap

            NextReading {
                id: next
                anchors.bottom: parent.bottom
                height: root.isTall ? implicitHeight : Theme.touch
                isCompact: root.isTall
                run: root.app.run
                width: parent.width - modes.width - Theme.gap
                x: Theme.isLeftHanded ? modes.width + Theme.gap : 0
            }
            ModeKeys {
                id: modes
                app: root.app
                enabled: !root.app.run.isClosed
                layoutDirection: Theme.isLeftHanded ? Qt.RightToLeft : Qt.LeftToRight
                x: Theme.isLeftHanded ? 0 : parent.width - width
            }
        }
    }
    Pad {
        id: pad
        app: root.app
        canType: !root.app.run.isClosed
        enabled: !root.isCovered && !(root.isAtCart && Theme.isLarge)
        focus: true
        hasMore: true
        height: root.isTall ? implicitHeight : root.height
        isTall: root.isTall
        room: root.height
        width: root.isTall ? root.width : implicitWidth
        x: root.isPadLeft ? 0 : root.width - pad.width
        y: root.height - pad.height

        onKitWanted: root.app.showKit()
        onLoggedWanted: root.app.showLogged()
        onNotesWanted: root.app.notes.open("")
    }
    NoteSheet {
        id: notes
        app: root.app

        onVisibleChanged: {
            if (!notes.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    HintSheet {
        id: hint
        app: root.app
        visible: root.app.run.modeHint !== ""

        onVisibleChanged: {
            if (!hint.visible) {
                pad.forceActiveFocus(); // the keyboard goes on where it was
            }
        }
    }
    PartSheet {
        id: part
        app: root.app

        onVisibleChanged: {
            if (!part.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    ReadingsSheet {
        id: readings
        app: root.app
        visible: false

        onVisibleChanged: {
            if (!readings.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    TrendSheet {
        id: curves
        app: root.app
        visible: false

        onVisibleChanged: {
            if (!curves.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    FindingSheet {
        id: reasons
        app: root.app
        visible: false

        onLog: {
            reasons.visible = false;
            log.visible = true;
        }
        onVisibleChanged: {
            if (!reasons.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    AlertLogSheet {
        id: log
        app: root.app
        visible: false

        onService: {
            log.visible = false;
            service.visible = true;
        }
        onVisibleChanged: {
            if (!log.visible) {
                pad.forceActiveFocus();
            }
        }
    }
    ServiceSheet {
        id: service
        app: root.app
        visible: false

        onVisibleChanged: {
            if (!service.visible) {
                pad.forceActiveFocus();
            }
        }
    }
}
