// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The sockets of a hub: HTTPS, and which path is answered by what.

#pragma once

#include "hub/service.h"
#include "hub/settings.h"

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace loopside::hub {

/// What was answered, for the log. Holds neither bodies nor signatures.
struct Served
{
    std::string method;
    std::string path; ///< Without its query.
    std::string address;
    int status = 0;
    std::string device;
    std::string reason;
};

/// A request for anything that does not stand under /v1/.
struct PageRequest
{
    std::string method; ///< "GET" or "POST".
    std::string path;
    std::vector<std::pair<std::string, std::string>> headers;
    std::vector<std::pair<std::string, std::string>> query;
    std::string body;
    std::string address;
};

struct PageAnswer
{
    int status = 200;
    std::string type;
    std::string body;
    std::vector<std::pair<std::string, std::string>> headers = {};
};

/// The pages for people are answered by this one function, from any thread; nothing where there is no such page. A hub
/// without it answers 404.
using Pages = std::function<std::optional<PageAnswer>(const PageRequest&)>;

class Server
{
public:
    /// Listens as `settings` say; `service` outlives it, `served` is told of every answer, from any thread. Io if the
    /// address cannot be had or the certificate not be used.
    [[nodiscard]] static Result<std::unique_ptr<Server>> open(const Settings& settings, Service& service,
                                                              std::function<void(const Served&)> served,
                                                              Pages pages = nullptr);
    Server(const Server&) = delete;
    Server& operator=(const Server&) = delete;
    ~Server();

    [[nodiscard]] int port() const;

    /// Answers until `stop` is called, and what it is answering then to the end.
    void run();

    /// From any thread.
    void stop();

private:
    struct Parts;
    explicit Server(std::unique_ptr<Parts> parts);

    std::unique_ptr<Parts> parts_;
};

} // namespace loopside::hub
