// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The router over a pipe, for browser.mjs: each line of standard input is a request as JSON, each line of standard
// output that begins with a brace its answer, with the body in hexadecimal digits. The site is made up; jobs that are
// planned are taken and forgotten.

#include "base/text.h"
#include "hub/page/page_site.h"
#include "hub/page/router.h"
#include "hub/page/some_accounts.h"
#include "run/notes.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace loopside;
using namespace loopside::page;

namespace {

constexpr char here = 'a'; // of its hash: the picture that was handed over

run::AttachmentAdded pictureOf(char digit)
{
    return {run::AttachmentKind::Photo, {}, std::string(64, digit), 68, "image/png", "gauge 2"};
}

/// A dot, which any browser shows.
std::string somePng()
{
    constexpr std::string_view bytes(
        "\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\1\0\0\0\1\x08\6\0\0\0\x1f\x15\xc4\x89\0\0\0\nIDATx\x9c"
        "c\0\1\0\0\5\0\1\r\n-\xb4\0\0\0\0IEND\xae"
        "B`\x82",
        67);
    return std::string(bytes);
}

/// The files that were handed over, by the entries that add them.
std::optional<std::string> fileOf(const run::State& state, const Id& entry)
{
    for (const auto& [id, run] : state.runs) {
        for (const run::Attachment& attachment : run::attachmentsOf(run)) {
            if (attachment.entry == entry && attachment.added.hash.front() == here) {
                return std::string(32, 's') + somePng();
            }
        }
    }
    return std::nullopt;
}

/// A closed run with a changeover, one at its limit, one that is well, one that nobody signed; stock and jobs.
test::PageSite busySite()
{
    test::PageSite site;
    site.demoShift()
        .run("Store tote 3", {"[140, 100, 30]", "[140, 100, 30]"},
             R"(, {"at": "00:16:00", "sample": {"port": "after", "id": "S1"}},
                 {"at": "00:17:00", "result": {"sample": "S1", "code": "15/13/10"}})",
             R"({"turnovers": 5, "code": "17/15/12"})")
        .run("Press hydraulic unit", {"[140, 100, 30]", "[165, 100, 30]", "[205, 100, 30]", "[275, 100, 30]"},
             R"x(, {"at": "00:21:00", "note": "<b>loud</b> <script>alert(1)</script>"})x")
        .run("Winder gearbox", {"[140, 100, 30]"}, R"(, {"at": "00:20:00", "mode": "stopped"},
                 {"at": "00:21:00", "close": {"ending": "stopped-early", "why": ""}})")
        .say("Press hydraulic unit", pictureOf(here))
        .say("Press hydraulic unit", pictureOf('e'))
        .say("Press hydraulic unit",
             run::AttachmentAdded{run::AttachmentKind::Document, {}, std::string(64, 'd'), 9, "application/pdf"})
        .stock("P10 glass", 5, "counted")
        .jobs("order,tank,cart,due,elements\nWO-1,Debarker gearbox,Cart B,2025-12-01,6\n");
    return site;
}

Ask askIn(const std::string& line)
{
    const Json json = Json::parse(line);
    Ask ask{json["method"], json["path"], {}, {}, json["body"], "127.0.0.1"};
    for (const auto& [name, value] : json["query"].items()) {
        ask.query[name] = value;
    }
    for (const auto& [name, value] : json["headers"].items()) {
        ask.headers[name] = value;
    }
    return ask;
}

std::string lineOf(const Answer& answer)
{
    Json headers = Json::array();
    for (const auto& [name, value] : answer.headers) {
        headers.push_back({name, value});
    }
    const std::vector<std::uint8_t> bytes(answer.body.begin(), answer.body.end());
    return Json{{"status", answer.status}, {"headers", headers}, {"body", toHex(bytes)}}.dump();
}

} // namespace

TEST_CASE("every request of standard input is answered")
{
    const test::PageSite site = busySite();
    const auto known = std::make_shared<const Known>(site.known());
    test::SomeAccounts some;
    test::OneMoment clock(site.after(1));
    Router router({[&] { return known; }, [](const auto&, const Id&) { return Done(); }, some.accounts, clock,
                   pageFiles(),
                   [&](const Id& entry) -> Result<std::optional<std::string>> { return fileOf(*known->state, entry); },
                   [&](const Id& entry) { return fileOf(*known->state, entry).has_value(); }});
    for (std::string line; std::getline(std::cin, line);) {
        std::cout << lineOf(router.answer(askIn(line))) << std::endl;
    }
    SUCCEED();
}
