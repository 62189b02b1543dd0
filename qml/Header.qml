// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Which run this is and how it stands, the other open runs, who holds the tablet. At the top of every page.
///
/// Where several runs are open, or none is shown (set up), the open runs stand in the place of the title. From every page
/// but the one of the shift a key leads there.
Item {
    id: root

    required property AppView app
    readonly property bool hasChips: root.showsRun && chips.count > 1
    /// Where the page needs the room.
    property bool isLow: false
    readonly property bool isTitleBelow: root.showsChips && root.title !== "" && chips.count > 0
    readonly property real rowHeight: chips.visible && chips.count > 0 ? (root.isLow ? Theme.chipHeightLow : Theme.chipHeight) : Theme.touchLeast
    /// The open runs stand over the title of a page that is about no run, too.
    property bool showsChips: false
    readonly property bool showsRun: root.app.run.isThere && (root.app.page === AppView.Run || root.app.page === AppView.Changeover || root.app.page === AppView.CloseOut)
    /// Of a page that is about no run.
    property string title

    implicitHeight: root.rowHeight + Theme.gap + Theme.gapSmall + (root.hasChips ? line.height + Theme.gapSmall : 0) + (root.isTitleBelow ? titleText.height + Theme.gapSmall : 0)

    RunTitle {
        id: title
        app: root.app
        height: root.rowHeight
        visible: root.showsRun && !root.hasChips
        width: keys.x - 2 * Theme.gap
        x: Theme.gap
        y: Theme.gap
    }
    Label {
        id: titleText
        elide: Text.ElideRight
        font.pixelSize: root.isTitleBelow ? Theme.textStrong : Theme.textTitle
        fontSizeMode: Text.HorizontalFit
        height: root.isTitleBelow ? implicitHeight : Theme.touchLeast
        isStrong: true
        minimumPixelSize: Theme.textLeast
        text: root.title !== "" ? root.title : root.app.label(root.app.page === AppView.SetUp ? "label.new-run" : "label.no-open-run")
        verticalAlignment: Text.AlignVCenter
        visible: !root.showsRun && (chips.count === 0 || root.title !== "")
        width: root.isTitleBelow ? root.width - 2 * Theme.gap : keys.x - 2 * Theme.gap
        wrapMode: Text.NoWrap
        x: Theme.gap
        y: Theme.gap + (root.isTitleBelow ? root.rowHeight + Theme.gapSmall : 0)
    }
    Chips {
        id: chips
        app: root.app
        height: root.rowHeight
        visible: root.title === "" ? !root.showsRun || root.hasChips : root.isTitleBelow
        width: keys.x - 2 * Theme.gap
        x: Theme.gap
        y: Theme.gap
    }
    RunTitleLine {
        id: line
        app: root.app
        visible: root.hasChips
        width: root.width - 2 * Theme.gap
        x: Theme.gap
        y: Theme.gap + root.rowHeight + Theme.gapSmall
    }
    Row {
        id: keys
        anchors.right: parent.right
        anchors.rightMargin: Theme.gap
        spacing: Theme.gap
        y: Theme.gap

        BigKey {
            detail: root.app.label("label.holds")
            height: Theme.touchLeast
            objectName: "who"
            text: root.app.person
            visible: !root.app.exercise
            width: Theme.touchLeast + Theme.gapLarge

            onPressed: root.app.askWho()
        }
        BigKey {
            height: Theme.touchLeast
            objectName: "themeKey"
            repeats: true
            spoken: root.app.label("label.theme")
            text: root.app.label("label.theme-" + root.app.theme)
            width: Theme.touchLeast

            onPressed: root.app.stepTheme()
        }
        BigKey {
            height: Theme.touchLeast
            objectName: "toShift"
            text: root.app.label("label.shift")
            visible: root.app.page !== AppView.Shift && !root.app.exercise
            width: Theme.touchLeast + Theme.gapLarge

            onPressed: root.app.showShift()
        }
        BigKey {
            height: Theme.touchLeast
            isMarked: root.app.exercise ? root.app.exercise.isAtCart : false
            objectName: "atCart"
            repeats: true
            text: root.app.label("label.practice-at-cart")
            visible: root.app.exercise !== null
            width: Theme.touchLeast + Theme.gapLarge

            onPressed: root.app.exercise.goToCart()
        }
        BigKey {
            height: Theme.touchLeast
            objectName: "practiceEnd"
            text: root.app.label("label.practice-end")
            visible: root.app.exercise !== null
            width: Theme.touchLeast + Theme.gapLarge

            onPressed: root.app.exercise.askEnd()
        }
    }
}
