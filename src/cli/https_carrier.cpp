// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/https_carrier.h"

#include "base/text.h"
#include "sync/message.h"
#include "sync/signed_request.h"

#include <httplib.h>
#include <openssl/ssl.h>
#include <openssl/x509.h>

#include <charconv>
#include <string_view>
#include <utility>

namespace loopside::cli {

namespace {

using handover::Answer;
using handover::Post;

constexpr int timeoutS = 30;
constexpr int portOfHttps = 443;
constexpr int portMax = 65535;

struct Place
{
    std::string host;
    int port = portOfHttps;
};

template<class Number>
std::optional<Number> numberIn(std::string_view text)
{
    Number number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    return fault == std::errc() && end == text.data() + text.size() ? std::optional(number) : std::nullopt;
}

/// What is in front of the port: a number of the newer kind, which has colons itself, stands in brackets.
std::string_view hostIn(std::string_view address)
{
    const bool isBracketed = address.starts_with('[');
    return address.substr(0, isBracketed ? address.find(']') + 1 : address.find(':'));
}

std::optional<Place> placeOf(std::string_view address)
{
    std::string_view host = hostIn(address);
    const std::string_view port = address.substr(host.size());
    const auto number = port.empty() ? std::optional(portOfHttps) : numberIn<int>(port.substr(1));
    if (!number || *number < 1 || *number > portMax || (!port.empty() && port.front() != ':')) {
        return std::nullopt;
    }
    if (host.starts_with('[')) {
        host = host.substr(1, host.size() - 2);
    }
    constexpr std::string_view signs = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-:";
    const bool isHost = !host.empty() && host.find_first_not_of(signs) == std::string_view::npos;
    return isHost ? std::optional(Place{std::string(host), *number}) : std::nullopt;
}

/// Whether the certificate that a hub shows is the one meant; looked at in the middle of the handshake, when nothing
/// was told yet.
struct Look
{
    const std::function<bool(const ledger::Hash&)>& isMeant;
    ledger::Hash shown = {};
    bool isOther = false;
};

/// In the place of the check by authorities: 1 where the handshake may go on.
int lookAtCertificate(X509_STORE_CTX* chain, void* into)
{
    Look& look = *static_cast<Look*>(into);
    const X509* certificate = X509_STORE_CTX_get0_cert(chain);
    unsigned size = 0;
    const bool isRead = certificate != nullptr && X509_digest(certificate, EVP_sha256(), look.shown.data(), &size) == 1
        && size == look.shown.size();
    look.isOther = !isRead || !look.isMeant(look.shown);
    X509_STORE_CTX_set_error(chain, look.isOther ? X509_V_ERR_APPLICATION_VERIFICATION : X509_V_OK);
    return look.isOther ? 0 : 1;
}

void prepare(httplib::SSLClient& client, Look& look)
{
    client.set_connection_timeout(timeoutS);
    client.set_read_timeout(timeoutS);
    client.set_write_timeout(timeoutS);
    client.enable_server_certificate_verification(false); // that is by authorities and names: OpenSSL asks us instead
    SSL_CTX_set_verify(client.ssl_context(), SSL_VERIFY_PEER, nullptr);
    SSL_CTX_set_cert_verify_callback(client.ssl_context(), lookAtCertificate, &look);
}

/// `post` as a request whose answer goes into `body`, as long as it is no longer than any message.
httplib::Request requestFor(const Post& post, std::string& body)
{
    httplib::Request request;
    request.method = "POST";
    request.path = post.path;
    request.headers = {
        {"Host", post.address}, {"Content-Type", post.type}, {std::string(sync::signatureHeader), post.signature}};
    request.body = post.body;
    request.content_receiver = [&body](const char* piece, std::size_t size, std::uint64_t, std::uint64_t) {
        body.append(piece, size);
        return body.size() <= sync::messageBytesMax;
    };
    return request;
}

Result<Answer> carried(const Post& post)
{
    const auto place = placeOf(post.address);
    if (!place) {
        return fail(Errc::Malformed, "\"" + quotable(post.address) + "\" is no address of a hub",
                    {"handover.no-address", {{"hub", post.address}}});
    }
    httplib::SSLClient client(place->host, place->port);
    Look look{post.isMeant};
    prepare(client, look);
    std::string body;
    const httplib::Result answer = client.send(requestFor(post, body));
    if (look.isOther) {
        return fail(Errc::Conflict, post.address + " is not the hub that is meant: its certificate is another one",
                    {"handover.other-hub", {{"hub", post.address}}});
    }
    if (!answer) {
        return fail(Errc::Unavailable, post.address + " does not answer: " + httplib::to_string(answer.error()),
                    {"handover.nobody", {{"hub", post.address}}});
    }
    const auto number = [&](std::string_view header) { return answer->get_header_value(std::string(header).c_str()); };
    return Answer{answer->status, std::move(body), numberIn<std::int64_t>(number(sync::hubTimeHeader)),
                  numberIn<int>(number("Retry-After")), look.shown};
}

} // namespace

bool HttpsCarrier::carry()
{
    const auto sent = std::exchange(waiting_, std::nullopt);
    if (sent) {
        sent->heard(carried(sent->post));
    }
    return sent.has_value();
}

} // namespace loopside::cli
