// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 lints a delegate as a file of its own, which does not know the ids around it.
// qmllint disable unqualified
import QtQuick
import Loopside.Model

/// The entry pad, always open: a field for each gauge and the oil, the number keys, and the main key.
///
/// A keyboard does the same: digits, point, minus, Backspace, Enter for the main key, Tab for the next field.
FocusScope {
    id: root

    required property AppView app
    /// Whether readings are taken; notes and what was logged are within reach all the same.
    property bool canType: true
    /// Lower where large text leaves little room for what is told.
    readonly property real fieldHeight: root.isShort || root.isTall ? Math.max(Theme.touchLeast, Theme.touchSmall * (Theme.isLarge ? 0.85 : 1)) : Theme.touchSmall
    /// Whether there is room for the key to the bottles; else they are one touch further away, behind what was logged.
    readonly property bool hasKit: root.hasMore && !root.isShort && (!root.isTall || numbers.height >= fields.height + 2 * (root.fieldHeight + Theme.gap))
    /// Whether keys lead to what was logged and to what is seen, heard or noted.
    property bool hasMore: false
    readonly property bool hasProblem: root.pad.noticeIsProblem && root.pad.notice !== ""
    readonly property real inner: Theme.gap
    /// For a left hand the keys stand at the left, with the fields beside them.
    readonly property bool isMirrored: root.isTall && Theme.isLeftHanded
    /// Beside the fields, as there is no room above them.
    readonly property bool isShort: root.hasMore && !root.isTall && root.room < numbers.height + 3 * Theme.touchSmall + 5 * Theme.gap
    property bool isTall: false
    readonly property PadView pad: root.app.pad
    /// The height that there is for it where it stands at a side.
    property real room: root.height

    signal kitWanted
    signal loggedWanted
    signal notesWanted

    function goOn(isHeld: bool) {
        if (!isHeld && root.canType) {
            root.pad.goOn();
        }
    }

    implicitHeight: Math.max(numbers.height, root.isTall && root.hasMore ? fields.height + Theme.gap + root.fieldHeight : 0) + 2 * root.inner
    implicitWidth: numbers.width + Theme.padSide + 3 * root.inner

    Keys.onEnterPressed: event => root.goOn(event.isAutoRepeat)
    Keys.onPressed: event => {
        if (!root.canType) {
            return;
        }
        if (event.key === Qt.Key_Backspace) {
            root.pad.backspace();
            event.accepted = true;
        } else if (event.text !== "" && "0123456789.,-".includes(event.text)) {
            root.pad.key(event.text === "," ? "." : event.text);
            event.accepted = true;
        }
    }
    Keys.onReturnPressed: event => root.goOn(event.isAutoRepeat)

    Panel {
        anchors.fill: parent
        radius: 0
    }
    Column {
        id: notice

        /// Right of the key to the bottles, which stands alone in its line.
        readonly property bool isBesideKit: root.isTall && beside.visible && root.hasKit

        spacing: Theme.gapSmall
        width: notice.isBesideKit ? beside.key : !beside.visible || root.isShort || root.isTall ? fields.width : beside.x - fields.x - Theme.gapSmall
        x: notice.isBesideKit ? fields.x + beside.key + beside.spacing : fields.x
        y: notice.isBesideKit ? beside.y + beside.height - root.fieldHeight : root.isTall && beside.visible ? beside.y + beside.height + Theme.gapSmall : root.isShort ? root.inner : beside.y
        z: 1

        CautionLine {
            text: root.pad.notice
            visible: root.hasProblem
            width: parent.width
        }
        Label {
            font.pixelSize: root.hasKit ? Theme.textSmall : Theme.textBody
            objectName: "padNotice"
            text: root.pad.notice
            visible: !root.pad.noticeIsProblem
            width: parent.width
        }
        Repeater {
            model: root.pad.fields

            delegate: Label {
                id: fault

                required property string problem

                text: fault.problem
                visible: fault.problem !== "" && !root.pad.noticeIsProblem
                width: notice.width
            }
        }
    }
    Grid {
        id: beside

        readonly property real key: root.isShort ? fields.cell : root.isTall ? (fields.width - spacing) / 2 : Theme.touch

        columns: root.hasKit && !root.isTall ? 3 : 2
        spacing: Theme.gap
        visible: root.hasMore && !root.hasProblem
        x: fields.x + fields.width - beside.width
        y: root.isShort ? fields.y + root.fieldHeight + Theme.gap : root.isTall ? fields.y + fields.height + Theme.gap : root.inner

        BigKey {
            height: root.fieldHeight
            objectName: "note"
            text: root.app.label("label.note")
            width: beside.key

            onPressed: root.notesWanted()
        }
        BigKey {
            height: root.fieldHeight
            objectName: "toLogged"
            text: root.app.label("label.logged")
            width: beside.key

            onPressed: root.loggedWanted()
        }
        BigKey {
            height: root.fieldHeight
            objectName: "toKit"
            text: root.app.label("label.kit")
            visible: root.hasKit
            width: beside.key

            onPressed: root.kitWanted()
        }
    }
    Grid {
        id: fields

        readonly property real cell: (width - (columns - 1) * spacing) / columns

        columns: root.isTall ? 1 : list.count > 4 || root.isShort ? 3 : 2
        enabled: root.canType
        spacing: Theme.gap
        width: root.isTall ? root.width - numbers.width - side.width - Theme.gap - 3 * root.inner : root.width - 2 * root.inner
        x: root.isMirrored ? side.x + side.width + root.inner : root.inner
        y: root.isTall ? numbers.y : numbers.y - Theme.gap - fields.height

        Repeater {
            id: list
            model: root.pad.fields

            delegate: PadField {
                id: field

                required ghost
                required property int index
                required isActive
                required name
                required problem
                required spoken
                required text
                required unit

                focus: field.isActive
                height: root.fieldHeight
                objectName: "field" + field.index
                width: fields.cell

                onSelected: root.pad.select(field.index)
            }
        }
    }
    NumberKeys {
        id: numbers
        anchors.bottom: parent.bottom
        anchors.bottomMargin: root.inner
        backSpoken: root.app.label("label.key-back")
        enabled: root.canType
        point: root.pad.point
        pointSpoken: root.app.label("label.key-point")
        x: root.isMirrored ? root.inner : side.x - Theme.gap - numbers.width

        onDeleted: root.pad.backspace()
        onTyped: sign => root.pad.key(sign)
    }
    Column {
        id: side
        anchors.bottom: numbers.bottom
        anchors.top: numbers.top
        enabled: root.canType
        spacing: Theme.gap
        width: Theme.padSide
        x: root.isMirrored ? numbers.x + numbers.width + Theme.gap : root.width - root.inner - side.width

        BigKey {
            height: Theme.touchSmall
            isMarked: root.pad.cannotRead
            objectName: "cannotRead"
            text: root.app.label("label.cannot-read")
            width: parent.width

            onPressed: root.pad.toggleCannotRead()
        }
        BigKey {
            height: Theme.touchSmall
            isMarked: root.pad.swings
            objectName: "swings"
            text: root.app.label("label.swings")
            width: parent.width

            onPressed: root.pad.toggleSwings()
        }
        BigKey {
            detail: root.pad.readText
            height: Theme.touchSmall
            objectName: "readEarlier"
            repeats: true
            text: root.app.label("label.read-earlier")
            width: parent.width

            onPressed: root.pad.stepReadEarlier()
        }
        BigKey {
            height: parent.height - y
            isMain: true
            objectName: "keyMain"
            repeats: true
            text: root.pad.mainText
            textSize: Theme.textTitle
            width: parent.width

            onPressed: root.pad.goOn()
        }
    }
}
