// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include <QDBusConnection>
#include <QDBusMessage>
#include <QDBusReply>
#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <cmath>

namespace loopside::app {

namespace {

/// Never waits longer on a service that hangs: the floor does not stand still for a lamp.
constexpr int patienceMs = 500;

QDBusMessage askScreenSaver(const QString& method, const QVariantList& arguments)
{
    QDBusMessage message = QDBusMessage::createMethodCall(QStringLiteral("org.freedesktop.ScreenSaver"),
                                                          QStringLiteral("/org/freedesktop/ScreenSaver"),
                                                          QStringLiteral("org.freedesktop.ScreenSaver"), method);
    message.setArguments(arguments);
    return QDBusConnection::sessionBus().call(message, QDBus::Block, patienceMs);
}

/// The lamp behind the display; empty if there is none.
QString lampHere()
{
    const QDir lamps(QStringLiteral("/sys/class/backlight"));
    const QStringList names = lamps.entryList(QDir::Dirs | QDir::NoDotAndDotDot);
    return names.isEmpty() ? QString() : lamps.filePath(names.first());
}

/// What the system says of a lamp; 0 if that cannot be read.
int numberOf(const QString& lamp, const char* what)
{
    QFile file(lamp + QLatin1Char('/') + QLatin1String(what));
    return file.open(QIODevice::ReadOnly) ? file.readAll().trimmed().toInt() : 0;
}

int rangeOf(const QString& lamp)
{
    return lamp.isEmpty() ? 0 : numberOf(lamp, "max_brightness");
}

} // namespace

bool SystemDisplay::keepOn(const QString& why)
{
    if (!isKept_ && QDBusConnection::sessionBus().isConnected()) {
        const QDBusReply<uint> reply = askScreenSaver(QStringLiteral("Inhibit"), {QStringLiteral("Loopside"), why});
        isKept_ = reply.isValid();
        cookie_ = isKept_ ? reply.value() : 0;
    }
    return isKept_;
}

void SystemDisplay::letSleep()
{
    if (isKept_) {
        askScreenSaver(QStringLiteral("UnInhibit"), {cookie_});
        isKept_ = false;
    }
}

std::optional<double> SystemDisplay::brightness() const
{
    const QString lamp = lampHere();
    const int range = rangeOf(lamp);
    return range <= 0 ? std::nullopt : std::optional(static_cast<double>(numberOf(lamp, "brightness")) / range);
}

bool SystemDisplay::setBrightness(double share)
{
    const QString lamp = lampHere();
    const int range = rangeOf(lamp);
    if (range <= 0 || !QDBusConnection::systemBus().isConnected()) {
        return false;
    }
    QDBusMessage message = QDBusMessage::createMethodCall(
        QStringLiteral("org.freedesktop.login1"), QStringLiteral("/org/freedesktop/login1/session/auto"),
        QStringLiteral("org.freedesktop.login1.Session"), QStringLiteral("SetBrightness"));
    message.setArguments(
        {QStringLiteral("backlight"), QFileInfo(lamp).fileName(), static_cast<uint>(std::lround(share * range))});
    return QDBusConnection::systemBus().call(message, QDBus::Block, patienceMs).type() == QDBusMessage::ReplyMessage;
}

} // namespace loopside::app
