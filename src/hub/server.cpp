// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/server.h"

#include "embedded/openapi.h"

#include <httplib.h>

#include <atomic>
#include <chrono>
#include <thread>

namespace loopside::hub {

namespace {

// A thread serves one connection: enough of them that silent peers keep nobody out, and none waits long.
constexpr std::size_t threads = 64;
constexpr time_t readTimeoutS = 5;
constexpr time_t writeTimeoutS = 10;
constexpr time_t keepAliveS = 2;
constexpr std::size_t messagesOfConnection = 1000;

constexpr int unsupportedMedia = 415;
constexpr int tooLarge = 413;

constexpr const char* deviceNote = "Loopside-Device"; // for the log alone: taken off before the answer is sent
constexpr const char* reasonNote = "Loopside-Reason";

/// A note as a header may hold it.
std::string onOneLine(std::string text)
{
    std::replace_if(text.begin(), text.end(), [](char sign) { return static_cast<unsigned char>(sign) < ' '; }, ' ');
    return text;
}

void give(const Answer& answer, httplib::Response& response)
{
    response.status = answer.status;
    response.set_content(answer.body, answer.type);
    if (answer.retryAfterS) {
        response.set_header("Retry-After", std::to_string(*answer.retryAfterS));
    }
    response.set_header(deviceNote, answer.device);
    response.set_header(reasonNote, onOneLine(answer.reason));
}

template<class Map>
std::vector<std::pair<std::string, std::string>> pairsOf(const Map& map)
{
    return {map.begin(), map.end()};
}

std::string takeNote(httplib::Response& response, const char* name)
{
    std::string note = response.get_header_value(name);
    response.headers.erase(name);
    return note;
}

} // namespace

struct Server::Parts
{
    Parts(const Settings& settings, Service& said, std::function<void(const Served&)> told, Pages others)
        : https{settings.certificateFile().c_str(), settings.certificateKeyFile().c_str()},
          service{&said},
          served{std::move(told)},
          pages{std::move(others)}
    {
    }

    void setLimits()
    {
        SSL_CTX_set_min_proto_version(https.ssl_context(), TLS1_2_VERSION);
        https.new_task_queue = [] { return new httplib::ThreadPool(threads); };
        https.set_payload_max_length(sync::messageBytesMax);
        https.set_read_timeout(readTimeoutS, 0);
        https.set_write_timeout(writeTimeoutS, 0);
        https.set_keep_alive_timeout(keepAliveS);
        https.set_keep_alive_max_count(messagesOfConnection);
        https.set_tcp_nodelay(true);
        https.set_socket_options([](socket_t socket) { // the library would let two hubs share a port
            const int yes = 1;
            ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
        });
    }

    void setRoutes()
    {
        const auto signedBy = [](const httplib::Request& request) {
            return request.get_header_value(std::string(sync::signatureHeader).c_str());
        };
        https.Post("/v1/enrol", [this, signedBy](const httplib::Request& request, httplib::Response& response) {
            give(service->enrol(
                     {{request.method, request.target, request.body}, signedBy(request), request.remote_addr}),
                 response);
        });
        https.Post("/v1/messages", [this, signedBy](const httplib::Request& request, httplib::Response& response) {
            give(service->message(
                     {{request.method, request.target, request.body}, signedBy(request), request.remote_addr}),
                 response);
        });
        const auto files = [this, signedBy](const httplib::Request& request, httplib::Response& response) {
            give(service->files(
                     {{request.method, request.target, request.body}, signedBy(request), request.remote_addr}),
                 response);
        };
        https.Post("/v1/files", files);
        https.Post("/v1/files/.*", files);
        https.Get("/v1/health", [this](const auto&, auto& response) { give(service->health(), response); });
        https.Get("/v1/ready", [this](const auto&, auto& response) { give(service->ready(), response); });
        https.Get("/v1/metrics", [this](const auto&, auto& response) { give(service->metrics(), response); });
        https.Get("/v1/openapi.yaml", [](const auto&, auto& response) {
            response.set_content(std::string(schema::openapi()), "application/yaml");
        });
        const auto page = [this](const httplib::Request& request, httplib::Response& response) {
            givePage(request, response);
        };
        https.Get("/.*", page);
        https.Post("/.*", page);
    }

    /// The one place where pages for people come in.
    void givePage(const httplib::Request& request, httplib::Response& response) const
    {
        const auto answer = pages && !request.path.starts_with("/v1/")
            ? pages({request.method, request.path, pairsOf(request.headers), pairsOf(request.params), request.body,
                     request.remote_addr})
            : std::nullopt;
        if (!answer) {
            response.status = 404;
            return;
        }
        response.status = answer->status;
        response.set_content(answer->body, answer->type);
        for (const auto& [name, value] : answer->headers) {
            response.set_header(name.c_str(), value);
        }
    }

    void setFrame()
    {
        https.set_pre_routing_handler([](const httplib::Request& request, httplib::Response& response) {
            // A body that unfolds could become any number of bytes.
            if (!request.has_header("Content-Encoding")) {
                return httplib::Server::HandlerResponse::Unhandled;
            }
            response.status = unsupportedMedia;
            response.set_content("a body is taken as it is, not compressed\n", "text/plain");
            return httplib::Server::HandlerResponse::Handled;
        });
        https.set_post_routing_handler([this](const httplib::Request& request, httplib::Response& response) {
            const std::string device = takeNote(response, deviceNote);
            served({request.method, request.path, request.remote_addr, response.status, device,
                    takeNote(response, reasonNote)});
            response.set_header(std::string(sync::hubTimeHeader).c_str(), std::to_string(service->nowMs()));
            response.set_header("X-Content-Type-Options", "nosniff");
            if (!response.has_header("Cache-Control")) {
                response.set_header("Cache-Control", "no-store");
            }
        });
        https.set_error_handler([this](const httplib::Request&, httplib::Response& response) {
            if (response.status == tooLarge && response.body.empty()) {
                give(service->tooLong(), response);
            }
        });
        https.set_exception_handler(
            [](const httplib::Request&, httplib::Response& response, const std::exception_ptr&) {
                response.status = 500;
                response.set_header(reasonNote, "the program did not expect this");
            });
    }

    httplib::SSLServer https;
    Service* service;
    std::function<void(const Served&)> served;
    Pages pages;
    int port = 0;
    std::atomic<bool> isOver = false;
};

Server::Server(std::unique_ptr<Parts> parts) : parts_{std::move(parts)} {}

Server::~Server() = default;

Result<std::unique_ptr<Server>> Server::open(const Settings& settings, Service& service,
                                             std::function<void(const Served&)> served, Pages pages)
{
    auto parts = std::make_unique<Parts>(settings, service, std::move(served), std::move(pages));
    if (!parts->https.is_valid()) {
        return fail(Errc::Io, "the certificate of the hub in " + settings.folder + " cannot be used");
    }
    parts->setLimits();
    parts->setRoutes();
    parts->setFrame();
    const bool isAny = settings.port == 0;
    parts->port = isAny ? parts->https.bind_to_any_port(settings.listen) : settings.port;
    const bool isBound = isAny ? parts->port > 0 : parts->https.bind_to_port(settings.listen, settings.port);
    if (!isBound) {
        return fail(Errc::Io,
                    "the hub cannot listen at " + settings.listen + ", port " + std::to_string(settings.port)
                        + ": another program may have it, or the address is not of this machine");
    }
    return std::unique_ptr<Server>(new Server(std::move(parts)));
}

int Server::port() const
{
    return parts_->port;
}

void Server::run()
{
    parts_->https.listen_after_bind();
    parts_->isOver = true;
}

void Server::stop()
{
    while (!parts_->isOver && !parts_->https.is_running()) { // it is just about to listen
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    parts_->https.stop();
}

} // namespace loopside::hub
