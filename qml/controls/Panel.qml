// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick

/// A quiet ground for things that belong together.
Rectangle {
    border.color: Theme.line
    border.width: Theme.stroke
    color: Theme.panel
    radius: Theme.radius
}
