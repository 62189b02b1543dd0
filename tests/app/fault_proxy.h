// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <QTcpServer>

#include <cstddef>
#include <string>

namespace loopside::test {

/// What happens to connections, where it needs bytes: with the byte behind so many of that way.
enum class Fault
{
    Nothing,
    Away,        ///< Nobody listens.
    CutThere,    ///< The connection ends on the way to the hub.
    CutBack,     ///< The connection ends on the way back: what was asked may be done.
    TurnedThere, ///< A bit is turned on the way to the hub.
    TurnedBack,  ///< A bit is turned on the way back.
    Nonsense,    ///< Something else answers than the hub.
    Slow,        ///< Small pieces with pauses between them. It hinders nothing.
    Silent       ///< Nothing more comes back, and the connection stays open.
};

/// Stands between tablets and a hub, with real sockets on 127.0.0.1, and does to connections what bad networks do. It
/// works while events are handled.
class FaultProxy
{
public:
    explicit FaultProxy(int hubPort);

    /// What happens to each connection from now on. Those that are open end, and who had them knows it.
    void set(Fault fault, qint64 after = 0);

    /// Where the hub listens now.
    void leadTo(int hubPort) { hubPort_ = hubPort; }

    [[nodiscard]] std::string address() const { return "127.0.0.1:" + std::to_string(port_); }

    /// How often something happened to a connection.
    [[nodiscard]] std::size_t fallen() const { return fallen_; }

private:
    class Link;

    void listen();
    void link(QTcpSocket* tablet);

    QTcpServer server_;
    QObject links_;
    int hubPort_;
    quint16 port_ = 0; ///< Always the same one, once it is known.
    Fault fault_ = Fault::Nothing;
    qint64 after_ = 0;
    std::size_t fallen_ = 0;
};

} // namespace loopside::test
