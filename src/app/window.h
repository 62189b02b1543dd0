// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/app_view.h"

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QStringList>

#include <memory>

namespace loopside::app {

/// The window over an AppView. Collects what QML complains of, so that a test can fail on it.
class Window
{
public:
    explicit Window(AppView& view);
    ~Window();

    /// Null if Main.qml could not be made.
    [[nodiscard]] QQuickWindow* window() const;

    /// The roles of colours and sizes, as QML has them: Theme.qml.
    [[nodiscard]] QObject* theme() const;

    /// Every warning of Qt and QML since the start.
    [[nodiscard]] static QStringList warnings();

    /// Settles layout and bindings and saves what the window shows as a PNG. False if nothing could be written.
    [[nodiscard]] bool save(const QString& path) const;

private:
    QQmlApplicationEngine engine_;
};

} // namespace loopside::app
