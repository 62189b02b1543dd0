// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a browser, or whoever pretends to be one, may ask the site page: the first line is a method, a path and perhaps
// "?name=value&…"; the second one names headers, ":" behind each name, "|" between them, and holds "signed in" where it
// comes with the cookie of a planner; the rest is the body. Every request is answered, refused in words, and shows
// nothing of the site to who is not signed in.

#define CATCH_CONFIG_RUNNER // the demo site checks itself as tests do; the program is the fuzzer's
#include "fuzz/target.h"
#include "hub/page/page_site.h"
#include "hub/page/router.h"
#include "hub/page/some_accounts.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <memory>

using namespace loopside;
using namespace loopside::page;

namespace {

std::string takeUpTo(std::string_view& text, char end)
{
    const auto at = text.find(end);
    std::string taken(text.substr(0, at));
    text = at == std::string_view::npos ? std::string_view() : text.substr(at + 1);
    return taken;
}

/// The demo shift with three accounts.
class World
{
public:
    /// A page of its own for each request: no try to sign in makes the next one wait.
    Answer answer(Ask ask, bool isSignedIn)
    {
        Router router({[this] { return known_; }, [](const run::PutRecords&, const Id&) -> Done { return {}; },
                       some_.accounts, clock_});
        if (isSignedIn) {
            ask.headers["cookie"] = cookieBy(router);
        }
        return router.answer(ask);
    }

private:
    static std::string cookieBy(Router& router)
    {
        Ask ask{.method = "POST", .path = "/page/api/sign-in", .address = "10.0.0.7"};
        ask.headers = {{"x-loopside", "page"}, {"content-type", "application/json"}};
        ask.body = R"({"name":"ines","password":"four plain words here"})";
        const Answer answer = router.answer(ask);
        fuzz::must(answer.status == 200, "who has an account cannot sign in any more");
        const std::string set = answer.header("Set-Cookie");
        return set.substr(0, set.find(';'));
    }

    test::PageSite site_ = std::move(test::PageSite().demoShift());
    test::SomeAccounts some_;
    test::OneMoment clock_{site_.after(1)};
    std::shared_ptr<const Known> known_ = std::make_shared<const Known>(site_.known());
};

World* made = nullptr;

/// The demo site checks itself as it is made, which only a test can hear.
World& theWorld()
{
    if (made == nullptr) {
        fuzz::must(Catch::Session().run() == 0 && made != nullptr, "the demo site cannot be made");
    }
    return *made;
}

/// What anybody may see: the page's files and words, and that nobody is signed in.
bool isForAll(const std::string& path)
{
    constexpr std::array<std::string_view, 4> open = {"words", "me", "sign-in", "sign-out"};
    constexpr std::string_view api = "/page/api/";
    return !path.starts_with(api)
        || std::find(open.begin(), open.end(), std::string_view(path).substr(api.size())) != open.end();
}

} // namespace

TEST_CASE("the demo site")
{
    made = new World; // for as long as the program runs
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    World& world = theWorld();
    std::string_view text = fuzz::textOf(data, size);
    Ask ask{.path = {}, .address = "10.0.0.8"};
    const std::string lineOfPath = takeUpTo(text, '\n');
    std::string_view first = lineOfPath;
    ask.method = takeUpTo(first, ' ');
    ask.path = takeUpTo(first, '?');
    while (!first.empty()) {
        const std::string pair = takeUpTo(first, '&');
        ask.query[pair.substr(0, pair.find('='))] = pair.find('=') == std::string::npos
            ? ""
            : pair.substr(pair.find('=') + 1);
    }
    const std::string lineOfHeaders = takeUpTo(text, '\n');
    std::string_view second = lineOfHeaders;
    while (!second.empty()) {
        const std::string header = takeUpTo(second, '|');
        if (const auto colon = header.find(':'); colon != std::string::npos) {
            ask.headers[header.substr(0, colon)] = header.substr(colon + 1);
        }
    }
    ask.body = std::string(text);
    const bool isSignedIn = lineOfHeaders.find("signed in") != std::string::npos;
    const Answer answer = world.answer(ask, isSignedIn);
    fuzz::must(answer.status >= 200 && answer.status < 600, "an answer is none of the protocol");
    fuzz::must(isSignedIn || isForAll(ask.path) || answer.status >= 400, "somebody who is not signed in was answered");
    if (answer.header("Content-Type").starts_with("application/json")) {
        const auto json = nlohmann::json::parse(answer.body, nullptr, false);
        fuzz::must(!json.is_discarded(), "an answer is called JSON and is none");
    }
    fuzz::must(answer.status < 400 || ask.method == "HEAD" || !answer.body.empty(),
               "something is refused without a word");
    fuzz::must(answer.status != 500, "a request is answered by a fault of the program");
    return 0;
}
