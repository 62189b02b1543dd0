// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/router.h"
#include "hub/server.h"

#include <memory>
#include <string>
#include <string_view>

namespace spdlog {
class logger;
}

namespace loopside::hub {

/// The hub's log: one JSON object a line on standard output, for journald or a collector. From any thread.
class Log
{
public:
    Log();

    /// Something that whoever runs the hub should know of.
    void say(std::string_view event, const std::string& sentence);

    void served(const Served& served);

    /// A try to sign in to the page.
    void tried(const page::TryTold& tried);

private:
    std::shared_ptr<spdlog::logger> lines_;
};

/// `served` as the line of the log: without what is empty.
[[nodiscard]] std::string lineOf(const Served& served, std::int64_t atMs);
[[nodiscard]] std::string lineOf(const page::TryTold& tried, std::int64_t atMs);

} // namespace loopside::hub
