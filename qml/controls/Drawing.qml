// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtQuick.Shapes
import Loopside.Model

/// Paths that are drawn. Qt 6.4 without graphics hardware draws those that lie wholly beyond the edge of what scrolls over
/// what stands there; as a picture of their own they are cut off as all else is.
Shape {
    id: root

    layer.enabled: Graphics.isByProcessor
    layer.textureSize: Qt.size(Math.max(1, Math.ceil(root.width * root.scale)), Math.max(1, Math.ceil(root.height * root.scale)))
}
