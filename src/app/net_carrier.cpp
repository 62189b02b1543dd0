// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/net_carrier.h"

#include "app/wording.h"
#include "sync/message.h"
#include "sync/signed_request.h"

#include <QNetworkReply>
#include <QNetworkRequest>
#include <QSslCertificate>
#include <QSslConfiguration>
#include <QUrl>

#include <algorithm>
#include <utility>

namespace loopside::app {

namespace {

constexpr int timeoutMs = 30'000;

/// A connection is used again for so long after something was last sent on it: a hub keeps one open for two seconds
/// behind its answer, and a slow network may still carry that answer while they pass.
constexpr qint64 keptMs = 1'000;

QByteArray bytesOf(std::string_view text)
{
    return {text.data(), static_cast<qsizetype>(text.size())};
}

/// A body that is read once. A connection that ends before an answer came is opened again by Qt, which says the same
/// once more; but a hub hears each signature once. Whoever sent it hears that nobody answers, and signs anew.
class SaidOnce final : public QIODevice
{
public:
    explicit SaidOnce(const std::string& body) : bytes_(body.data(), static_cast<qsizetype>(body.size()))
    {
        open(QIODevice::ReadOnly | QIODevice::Unbuffered);
    }

    [[nodiscard]] qint64 size() const override { return bytes_.size(); }
    bool seek(qint64 position) override { return position == pos(); }

protected:
    qint64 readData(char* into, qint64 most) override
    {
        const qint64 count = std::min(most, size() - pos());
        std::copy_n(bytes_.constData() + pos(), count, into);
        return count > 0 ? count : -1;
    }
    qint64 writeData(const char* /*bytes*/, qint64 /*count*/) override { return -1; }

private:
    QByteArray bytes_;
};

ledger::Hash certificateOf(const QNetworkReply& reply)
{
    ledger::Hash hash = {};
    const QByteArray digest = reply.sslConfiguration().peerCertificate().digest(QCryptographicHash::Sha256);
    std::copy_n(digest.begin(), std::min(digest.size(), static_cast<qsizetype>(hash.size())), hash.begin());
    return hash;
}

/// Whether all of an answer came, whatever it says: else a connection failed before or in the middle of it.
bool isWhole(const QNetworkReply& reply)
{
    using Reply = QNetworkReply;
    const Reply::NetworkError error = reply.error();
    const bool isOfWay = error != Reply::NoError && error < Reply::ContentAccessDenied; // the network or a proxy
    const bool isGarbled = error == Reply::ProtocolUnknownError || error == Reply::ProtocolFailure;
    return reply.attribute(QNetworkRequest::HttpStatusCodeAttribute).toInt() != 0 && !isOfWay && !isGarbled;
}

QNetworkRequest requestFor(const handover::Post& post)
{
    QNetworkRequest request(QUrl(QStringLiteral("https://") + toQt(post.address) + toQt(post.path)));
    request.setHeader(QNetworkRequest::ContentTypeHeader, toQt(post.type));
    request.setRawHeader(bytesOf(sync::signatureHeader), bytesOf(post.signature));
    request.setTransferTimeout(timeoutMs);
    request.setAttribute(QNetworkRequest::RedirectPolicyAttribute, QNetworkRequest::ManualRedirectPolicy);
    request.setAttribute(QNetworkRequest::Http2AllowedAttribute, false);
    request.setAttribute(QNetworkRequest::CookieLoadControlAttribute, QNetworkRequest::Manual);
    request.setAttribute(QNetworkRequest::CookieSaveControlAttribute, QNetworkRequest::Manual);
    return request;
}

template<class Number>
std::optional<Number> numberIn(const QNetworkReply& reply, std::string_view header)
{
    bool isNumber = false;
    const qlonglong number = reply.rawHeader(bytesOf(header)).toLongLong(&isNumber);
    return isNumber ? std::optional(static_cast<Number>(number)) : std::nullopt;
}

} // namespace

NetCarrier::NetCarrier() = default;

NetCarrier::~NetCarrier()
{
    giveUp();
}

void NetCarrier::send(handover::Post post, Heard heard)
{
    giveUp();
    isOther_ = false;
    const bool isOld = !sent_.isValid() || sent_.hasExpired(keptMs);
    if (isOld || !post.isMeant(seen_)) { // an open connection is not looked at again
        net_.clearConnectionCache();
    }
    sent_.start();
    auto* const body = new SaidOnce(post.body);
    QNetworkReply* reply = net_.post(requestFor(post), body);
    body->setParent(reply);
    reply_ = reply;
    const auto isMeant = [reply, isMeant = post.isMeant] { return isMeant(certificateOf(*reply)); };
    const auto refuse = [this, reply] {
        isOther_ = true;
        reply->abort();
    };
    // A hub's certificate is its own: no authority signed it. That it is the one meant is looked at here.
    QObject::connect(reply, &QNetworkReply::sslErrors, &net_,
                     [=](const QList<QSslError>&) { isMeant() ? reply->ignoreSslErrors() : refuse(); });
    // At this moment nothing was told yet.
    QObject::connect(reply, &QNetworkReply::encrypted, &net_, [=] {
        if (!isMeant()) {
            refuse();
        }
    });
    QObject::connect(reply, &QNetworkReply::downloadProgress, &net_, [reply](qint64 received, qint64) {
        if (received > static_cast<qint64>(sync::messageBytesMax)) {
            reply->abort();
        }
    });
    QObject::connect(
        reply, &QNetworkReply::finished, &net_,
        [this, reply, address = std::move(post.address), heard = std::move(heard)] { finish(reply, address, heard); },
        Qt::QueuedConnection);
}

void NetCarrier::finish(QNetworkReply* reply, const std::string& address, const Heard& heard)
{
    reply->deleteLater();
    if (reply != reply_) {
        return; // given up meanwhile
    }
    reply_.clear();
    if (isOther_) {
        heard(fail(Errc::Conflict, address + " is not the hub that is meant: its certificate is another one",
                   {"handover.other-hub", {{"hub", address}}}));
        return;
    }
    if (!isWhole(*reply)) {
        heard(fail(Errc::Unavailable, address + " does not answer: " + reply->errorString().toStdString(),
                   {"handover.nobody", {{"hub", address}}}));
        return;
    }
    seen_ = certificateOf(*reply);
    const int status = reply->attribute(QNetworkRequest::HttpStatusCodeAttribute).toInt();
    heard(handover::Answer{status, reply->readAll().toStdString(), numberIn<std::int64_t>(*reply, sync::hubTimeHeader),
                           numberIn<int>(*reply, "Retry-After"), seen_});
}

void NetCarrier::giveUp()
{
    if (QNetworkReply* reply = reply_) {
        reply_.clear();
        reply->disconnect(&net_);
        reply->abort();
        reply->deleteLater();
    }
}

} // namespace loopside::app
