// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The program that windows want, and a window of a few items for tests of the checks themselves.

#pragma once

#include <QQmlComponent>
#include <QQmlEngine>
#include <QQuickWindow>

#include <memory>

namespace loopside::scene {

/// Makes the program, once; call it before any window.
void theProgram();

/// Bindings, positions and what a page that scrolls measures follow each other over some rounds: until two frames are
/// alike.
void settle(QQuickWindow& window);

/// A window of 1280×800 on the day's ground with `items`, written in QML with the controls of the app.
class SmallStage
{
public:
    explicit SmallStage(const char* items)
    {
        theProgram();
        engine_ = std::make_unique<QQmlEngine>();
        engine_->addImportPath(QStringLiteral("qrc:/qt/qml"));
        QQmlComponent component(engine_.get());
        component.setData("import QtQuick\nimport QtQuick.Window\nimport Loopside.Ui\n"
                          "Window { width: 1280; height: 800; visible: true; color: Theme.ground\n"
                              + QByteArray(items) + "}",
                          QUrl(QStringLiteral("qrc:/qt/qml/Loopside/Ui/SmallStage.qml")));
        object_.reset(component.create());
        if (object_ == nullptr) {
            qCritical("%s", qUtf8Printable(component.errorString()));
        }
        settle(window());
    }

    [[nodiscard]] QQuickWindow& window() const { return *qobject_cast<QQuickWindow*>(object_.get()); }

private:
    std::unique_ptr<QQmlEngine> engine_;
    std::unique_ptr<QObject> object_;
};

} // namespace loopside::scene
