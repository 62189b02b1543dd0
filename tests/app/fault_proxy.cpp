// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/fault_proxy.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QHostAddress>
#include <QTcpSocket>
#include <QTimer>

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

constexpr qint64 pieceBytes = 16'384;
constexpr qint64 slowPieceBytes = 8'000;
constexpr int slowMs = 5;
constexpr int noticedMs =
    50; ///< So long it takes at most until the ends of a connection on this machine know it ended.

bool isOfWayBack(Fault fault)
{
    return fault == Fault::CutBack || fault == Fault::TurnedBack || fault == Fault::Silent;
}

bool isOfWayThere(Fault fault)
{
    return fault == Fault::CutThere || fault == Fault::TurnedThere;
}

} // namespace

/// One connection of a tablet, and the one to the hub that belongs to it.
class FaultProxy::Link : public QObject
{
public:
    Link(FaultProxy& proxy, QTcpSocket* tablet) : QObject(&proxy.links_), proxy_{proxy}, fault_{proxy.fault_}
    {
        tablet->setParent(this);
        there_ = {tablet, &hub_};
        back_ = {&hub_, tablet, true};
        for (Way* way : {&there_, &back_}) {
            connect(way->from, &QTcpSocket::readyRead, this, [this, way] { pass(*way); });
            connect(way->from, &QTcpSocket::disconnected, this, [this, way] { pass(*way); });
        }
        connect(&hub_, &QTcpSocket::connected, this, [this] { pass(there_); });
        connect(&hub_, &QTcpSocket::errorOccurred, this, [this] { end(); });
        if (fault_ == Fault::Nonsense) {
            ++proxy_.fallen_;
            tablet->write("220 mail.example ready\r\n");
        } else {
            hub_.connectToHost(QHostAddress::LocalHost, static_cast<quint16>(proxy.hubPort_));
        }
    }

    ~Link() override
    {
        hub_.disconnect(this);
        there_.from->disconnect(this);
    }

private:
    struct Way
    {
        QTcpSocket* from = nullptr;
        QTcpSocket* to = nullptr;
        bool isBack = false;
        qint64 passed = 0;
        bool isWaiting = false;
    };

    void pass(Way& way)
    {
        while (!way.isWaiting && way.to->state() == QAbstractSocket::ConnectedState && way.from->bytesAvailable() > 0) {
            QByteArray piece = way.from->read(fault_ == Fault::Slow ? slowPieceBytes : pieceBytes);
            if (!hurt(way, piece)) {
                return;
            }
            way.to->write(piece);
            way.passed += piece.size();
            if (fault_ == Fault::Slow) {
                way.isWaiting = true;
                QTimer::singleShot(slowMs, this, [this, &way] {
                    way.isWaiting = false;
                    pass(way);
                });
            }
        }
        if (way.from->state() == QAbstractSocket::UnconnectedState && way.from->bytesAvailable() == 0) {
            way.to->disconnectFromHost();
        }
    }

    /// Lets happen to `piece` what must; false: it goes no further.
    bool hurt(const Way& way, QByteArray& piece)
    {
        const bool isOfWay = way.isBack ? isOfWayBack(fault_) : isOfWayThere(fault_);
        if (!isOfWay || way.passed + piece.size() <= proxy_.after_) {
            return true;
        }
        const qint64 whole = std::max<qint64>(proxy_.after_ - way.passed, 0);
        proxy_.fallen_ += hasFallen_ ? 0 : 1;
        const bool isFirst = !std::exchange(hasFallen_, true);
        if (fault_ == Fault::TurnedThere || fault_ == Fault::TurnedBack) {
            piece[whole] = static_cast<char>(piece[whole] ^ (isFirst ? 1 : 0));
            return true;
        }
        if (fault_ == Fault::Silent) {
            hub_.disconnect(this); // nor is its end told
            return false;
        }
        way.to->write(piece.first(whole));
        way.to->flush();
        end();
        return false;
    }

    void end()
    {
        hub_.abort();
        there_.from->abort();
    }

    FaultProxy& proxy_;
    Fault fault_;
    QTcpSocket hub_;
    Way there_;
    Way back_;
    bool hasFallen_ = false;
};

FaultProxy::FaultProxy(int hubPort) : hubPort_{hubPort}
{
    QObject::connect(&server_, &QTcpServer::newConnection, &links_, [this] {
        while (QTcpSocket* tablet = server_.nextPendingConnection()) {
            new Link(*this, tablet); // its parent has it
        }
    });
    listen();
}

void FaultProxy::listen()
{
    REQUIRE(server_.listen(QHostAddress::LocalHost, port_));
    port_ = server_.serverPort();
}

void FaultProxy::set(Fault fault, qint64 after)
{
    qDeleteAll(links_.children());
    fault_ = fault;
    after_ = after;
    if (fault == Fault::Away) {
        server_.close();
    } else if (!server_.isListening()) {
        listen();
    }
    QElapsedTimer timer;
    timer.start();
    while (timer.elapsed() < noticedMs) {
        QCoreApplication::processEvents(QEventLoop::AllEvents, noticedMs);
    }
}

} // namespace loopside::test
