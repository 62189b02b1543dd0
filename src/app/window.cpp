// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/window.h"

#include <QCoreApplication>
#include <QImage>
#include <QMutex>

#include <cstdio>

namespace loopside::app {

namespace {

QStringList& collected()
{
    static QStringList warnings;
    return warnings;
}

/// Qt warns where there is no sound server; the screens say in words what cannot be heard or spoken.
bool isOfHardware(const QString& message)
{
    return message.startsWith(QLatin1String("PulseAudioService"));
}

void collect(QtMsgType type, const QMessageLogContext&, const QString& message)
{
    static QMutex mutex; // Qt warns from its own threads too
    const QMutexLocker lock(&mutex);
    if ((type == QtWarningMsg || type == QtCriticalMsg) && !isOfHardware(message)) {
        collected().append(message);
    }
    std::fprintf(stderr, "%s\n", qUtf8Printable(message));
}

} // namespace

Window::Window(AppView& view)
{
    qInstallMessageHandler(collect);
    engine_.addImportPath(QStringLiteral("qrc:/qt/qml"));
    engine_.setInitialProperties({{QStringLiteral("home"), QVariant::fromValue(&view)}});
    engine_.load(QUrl(QStringLiteral("qrc:/qt/qml/Loopside/Ui/Main.qml")));
}

Window::~Window() = default;

QQuickWindow* Window::window() const
{
    return engine_.rootObjects().isEmpty() ? nullptr : qobject_cast<QQuickWindow*>(engine_.rootObjects().first());
}

QObject* Window::theme() const
{
    return window()->property("theme").value<QObject*>();
}

QStringList Window::warnings()
{
    return collected();
}

bool Window::save(const QString& path) const
{
    QCoreApplication::processEvents();
    const QImage image = window()->grabWindow();
    return !image.isNull() && image.save(path);
}

} // namespace loopside::app
