// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import Loopside.Model

/// Whether a particle counter is on site: only then a code target can keep the run open.
ChoiceKey {
    id: root

    required property AppView app

    isChosen: root.app.setup.counterOnSite
    text: root.app.label("label.counter-on-site")

    onPressed: root.app.setup.toggleCounter()
}
