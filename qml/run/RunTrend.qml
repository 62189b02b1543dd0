// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// The trend of the shown run in the colours of the theme.
TrendItem {
    id: root

    required property AppView app

    Accessible.name: root.app.label("label.trend")
    Accessible.role: Accessible.Chart
    curveColors: [Theme.stage1, Theme.stage2, Theme.stage3]
    dim: Theme.dim
    family: Theme.family
    ground: Theme.panel
    ink: Theme.ink
    limit: Theme.limit
    line: Theme.line
    run: root.app.run
    shade: Theme.shade
    strokePx: Theme.stroke
    textPx: Theme.textSmall
}
