// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The pad of a page with typed fields.
NumberKeys {
    id: root

    required property FieldsView fields

    point: root.fields.point

    onDeleted: root.fields.backspace()
    onTyped: sign => root.fields.key(sign)
}
