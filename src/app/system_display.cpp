// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include <QDBusConnection>
#include <QDBusMessage>
#include <QDBusReply>
#include <QDir>
#include <QFile>

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

/// The range of a lamp; 0 if it has none that can be read.
int rangeOf(const QString& lamp)
{
    QFile most(lamp + QStringLiteral("/max_brightness"));
    return most.open(QIODevice::ReadOnly) ? most.readAll().trimmed().toInt() : 0;
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

bool SystemDisplay::setBrightness(double share)
{
    const QDir lamps(QStringLiteral("/sys/class/backlight"));
    const QStringList names = lamps.entryList(QDir::Dirs | QDir::NoDotAndDotDot);
    const int range = names.isEmpty() ? 0 : rangeOf(lamps.filePath(names.first()));
    if (range <= 0 || !QDBusConnection::systemBus().isConnected()) {
        return false;
    }
    QDBusMessage message = QDBusMessage::createMethodCall(
        QStringLiteral("org.freedesktop.login1"), QStringLiteral("/org/freedesktop/login1/session/auto"),
        QStringLiteral("org.freedesktop.login1.Session"), QStringLiteral("SetBrightness"));
    message.setArguments({QStringLiteral("backlight"), names.first(), static_cast<uint>(std::lround(share * range))});
    return QDBusConnection::systemBus().call(message, QDBus::Block, patienceMs).type() == QDBusMessage::ReplyMessage;
}

} // namespace loopside::app
