// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/log.h"

#include "base/text.h"
#include "store/system_clock.h"

#include <nlohmann/json.hpp>
#include <spdlog/sinks/stdout_sinks.h>
#include <spdlog/spdlog.h>

namespace loopside::hub {

namespace {

using Json = nlohmann::ordered_json;

constexpr int firstOfFailures = 500;
constexpr int firstOfRefusals = 400;

std::int64_t nowMs()
{
    return store::SystemClock().now().wallMs;
}

std::string written(const Json& json)
{
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

spdlog::level::level_enum levelOf(int status)
{
    return status >= firstOfFailures ? spdlog::level::err
        : status >= firstOfRefusals  ? spdlog::level::warn
                                     : spdlog::level::info;
}

} // namespace

std::string lineOf(const Served& served, std::int64_t atMs)
{
    Json line = {{"at", utcText(atMs)}, {"event", "request"},      {"method", served.method},
                 {"path", served.path}, {"status", served.status}, {"address", served.address}};
    if (!served.device.empty()) {
        line["device"] = served.device;
    }
    if (!served.reason.empty()) {
        line["reason"] = served.reason;
    }
    return written(line);
}

std::string lineOf(const page::TryTold& tried, std::int64_t atMs)
{
    Json line = {{"at", utcText(atMs)}, {"event", "sign-in"}, {"outcome", tried.outcome}, {"address", tried.address}};
    if (!tried.name.empty()) {
        line["name"] = tried.name;
    }
    return written(line);
}

Log::Log() : lines_{std::make_shared<spdlog::logger>("hub", std::make_shared<spdlog::sinks::stdout_sink_mt>())}
{
    lines_->set_pattern("%v");
    lines_->flush_on(spdlog::level::info);
}

void Log::tried(const page::TryTold& tried)
{
    const bool isWell = tried.outcome == "signed in" || tried.outcome == "password changed";
    lines_->log(isWell ? spdlog::level::info : spdlog::level::warn, lineOf(tried, nowMs()));
}

void Log::say(std::string_view event, const std::string& sentence)
{
    lines_->info(written({{"at", utcText(nowMs())}, {"event", event}, {"sentence", sentence}}));
}

void Log::served(const Served& served)
{
    lines_->log(levelOf(served.status), lineOf(served, nowMs()));
}

} // namespace loopside::hub
