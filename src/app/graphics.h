// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QObject>
#include <QQuickWindow>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// How the window is drawn.
class Graphics : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_SINGLETON

    /// By the processor, where there is no graphics hardware.
    Q_PROPERTY(bool isByProcessor READ isByProcessor CONSTANT)

public:
    [[nodiscard]] static bool isByProcessor() { return QQuickWindow::sceneGraphBackend() == QLatin1String("software"); }
};

} // namespace loopside::app
