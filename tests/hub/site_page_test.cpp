// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The page on what a hub holds in its database: what tablets handed over is shown, and what a planner tells becomes an
// entry like any other.

#include "hub/site_page.h"

#include "hub/page/page_site.h"
#include "hub/page/some_accounts.h"
#include "hub/some_hub.h"
#include "hub/upkeep.h"
#include "ledger/body.h"
#include "ledger/recorder.h"
#include "ledger/verify.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::test;
using nlohmann::json;
using sync::Held;

namespace {

constexpr const char* password = "four plain words here";

class SetClock final : public Clock
{
public:
    [[nodiscard]] Stamp now() override { return stamp; }
    Stamp stamp = {};
};

/// A hub's page in a browser, over a database of its own.
template<class Where>
class HubPage
{
public:
    HubPage()
    {
        clock.stamp = site.after(1);
        reopen();
        hub::SqlAccounts store(where.sql(), where.site());
        page::Accounts accounts(store, cheap);
        REQUIRE(accounts.add({}, personOf(1), "Ines", page::Role::Planner, password, clock.stamp.wallMs).has_value());
    }

    void reopen()
    {
        page = std::make_unique<hub::SitePage>(where.sql(), hub::SiteRecord{where.site(), {}},
                                               hub::PageSettings{.device = device,
                                                                 .key = [this]() -> Result<ledger::DeviceKey> {
                                                                     if (!hasKey) {
                                                                         return fail(Errc::Io, "no key");
                                                                     }
                                                                     return Recorder::keyOf(77);
                                                                 },
                                                                 .catalogue = site.known().site,
                                                                 .cost = cheap},
                                               clock, random);
        cookie.clear();
    }

    /// Puts what the tablet of `site` wrote into the hub.
    void handOver()
    {
        std::vector<Held> all;
        const auto written = site.journal().read(0, 100'000);
        REQUIRE(written.has_value());
        for (const ledger::Stored& stored : *written) {
            all.push_back({stored.entry});
        }
        REQUIRE(where.shelf().put(all, {}).has_value());
        clock.stamp.wallMs += 10'000;
    }

    hub::PageAnswer ask(const std::string& method, const std::string& path, const std::string& body = {})
    {
        auto answer = page->answer({method,
                                    path,
                                    {{"Cookie", cookie}, {"X-Loopside", "page"}, {"Content-Type", "application/json"}},
                                    {{"language", "en"}},
                                    body,
                                    "10.0.0.7"});
        for (const auto& [name, value] : answer.headers) {
            cookie = name == "Set-Cookie" ? value.substr(0, value.find(';')) : cookie;
        }
        return answer;
    }

    void signIn()
    {
        REQUIRE(ask("POST", "/page/api/sign-in", json{{"name", "ines"}, {"password", password}}.dump()).status == 200);
    }

    json view(const std::string& name)
    {
        const auto answer = ask("GET", "/page/api/" + name);
        INFO(answer.body);
        REQUIRE(answer.status == 200);
        return json::parse(answer.body);
    }

    hub::PageAnswer plan(const std::string& order)
    {
        return ask("POST", "/page/api/jobs",
                   json{{"order", order}, {"tank", "Store tote 3"}, {"cart", "Cart B"}}.dump());
    }

    /// What the hub wrote itself, in order.
    std::vector<ledger::Entry> ownEntries()
    {
        std::vector<ledger::Entry> own;
        const auto tips = where.shelf().tipsOf(device).value();
        for (const sync::Tip& tip : tips) {
            const auto chain = where.shelf().behind(tip.chain, 0, 1000).value();
            for (const Held& held : chain) {
                own.push_back(held.entry);
            }
        }
        return own;
    }

    static constexpr page::PasswordCost cheap = {crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN};
    Id device = Recorder::idOf(0xD0, 77);
    Where where;
    PageSite site;
    SetClock clock;
    store::SystemRandom random;
    bool hasKey = true;
    std::unique_ptr<hub::SitePage> page;
    std::string cookie;
};

} // namespace

TEMPLATE_TEST_CASE("the page shows what tablets handed over, also what came since it was looked at", "", HubOnDisk,
                   HubInPostgres)
{
    HubPage<TestType> hub;
    hub.signIn();
    CHECK(hub.view("today").dump().find("Store tote 3") == std::string::npos);
    hub.site.run("Store tote 3", {"[140, 100, 30]", "[165, 100, 30]"});
    hub.handOver();
    CHECK(hub.view("today").dump().find("Store tote 3") != std::string::npos);
    hub.page->show(
        {hub.where.shelf().tips().value().front().sequence, hub.clock.stamp.wallMs, {{0, "entry 7 was altered"}}});
    CHECK(hub.view("verify").dump().find("entry 7 was altered") != std::string::npos);
}

TEST_CASE("a run that was over long ago is whole when somebody opens it, and what is missing of it is still told")
{
    constexpr int many = 35; // more than stay whole
    HubPage<HubOnDisk> hub;
    for (int i = 0; i < many; ++i) {
        hub.site.run("Store tote 3", {"[" + std::to_string(140 + i) + ", 100, 30]"},
                     R"(, {"at": "00:20:00", "mode": "stopped"},
                         {"at": "00:21:00", "close": {"ending": "stopped-early", "why": ")"
                         + std::string(i % 2 == 0 ? "" : "the shift was over") + R"("}})");
    }
    hub.handOver();
    hub.signIn();
    const json missing = hub.view("missing")["rows"];
    CHECK(std::ranges::count_if(missing, [](const json& row) { return row["kind"] == "sign-off"; }) == (many + 1) / 2);
    for (const json& row : missing) {
        const json run = hub.view("runs/" + row["id"].get<std::string>());
        CHECK(run["entries"].dump().find("100") != std::string::npos); // what its gauges showed
    }
    CHECK(hub.view("missing")["rows"] == missing);
}

TEMPLATE_TEST_CASE("a job that is planned is an entry of the planner, signed by the hub, that goes on with its chain",
                   "", HubOnDisk, HubInPostgres)
{
    HubPage<TestType> hub;
    hub.site.run("Store tote 3", {"[140, 100, 30]"});
    hub.handOver();
    hub.signIn();
    CHECK(hub.view("today").dump().find("WO-1") == std::string::npos);
    const auto planned = hub.plan("WO-1");
    INFO(planned.body);
    REQUIRE(planned.status == 200);
    hub.reopen();
    hub.signIn();
    REQUIRE(hub.plan("WO-2").status == 200);

    const auto own = hub.ownEntries();
    REQUIRE(own.size() == 3); // the opening of the chain, and two jobs
    CHECK(own[1].header.person == personOf(1));
    const auto event = ledger::eventFrom(own[1].kind, own[1].body);
    REQUIRE(event.has_value());
    CHECK(std::get<run::JobPut>(*event).job.order == "WO-1");
    CHECK(own[2].chain == own[1].chain);
    CHECK(hub.where.shelf().list(sync::Topic::catalogue(), 0, 99)->refs.size() == 2);
    ledger::Verifier verifier;
    for (const ledger::Entry& entry : own) {
        verifier.take({entry.header.sequence, entry});
    }
    CHECK(verifier.faults().empty());
    const auto known = hub::DeviceRegister(hub.where.sql(), hub.where.site()).find(hub.device);
    REQUIRE((known.has_value() && known->has_value()));
    CHECK((*known)->key == Recorder::keyOf(77).publicKey());
}

TEST_CASE("a job that the hub cannot sign is refused, and nothing was stored")
{
    HubPage<HubOnDisk> hub;
    hub.site.run("Store tote 3", {"[140, 100, 30]"});
    hub.handOver();
    hub.signIn();
    hub.hasKey = false;
    CHECK(hub.plan("WO-1").status == 503);
    CHECK(hub.ownEntries().empty());
}

TEMPLATE_TEST_CASE("accounts and sessions are kept, and what was done to them for good", "", HubOnDisk, HubInPostgres)
{
    TestType where;
    hub::SqlAccounts store(where.sql(), where.site());
    page::Accounts accounts(store, HubPage<TestType>::cheap);
    REQUIRE(accounts.add({}, personOf(1), "Ines", page::Role::Planner, password, 1000).has_value());
    REQUIRE(accounts.add(personOf(1), personOf(2), "Tomasz", page::Role::Engineer, password, 2000).has_value());
    const auto taken = accounts.add({}, personOf(3), "ines", page::Role::Admin, password, 3000);
    REQUIRE_FALSE(taken.has_value());
    CHECK(taken.error().code == Errc::Conflict);
    const auto signedIn = accounts.signIn("ines", password, 4000);
    REQUIRE(signedIn.has_value());
    CHECK(accounts.whoIs(signedIn->token, 5000)->has_value());

    where.reopen();
    hub::SqlAccounts again(where.sql(), where.site());
    page::Accounts accountsAgain(again, HubPage<TestType>::cheap);
    CHECK(accountsAgain.whoIs(signedIn->token, 6000)->has_value());
    REQUIRE(accountsAgain.setRole({}, "ines", page::Role::Admin, 7000).has_value()); // ends the session
    CHECK_FALSE(accountsAgain.whoIs(signedIn->token, 8000)->has_value());
    CHECK(again.all()->size() == 2);
    CHECK(again.named("ines").value()->role == page::Role::Admin);
    hub::SqlAccounts foreign(where.sql(), freshId());
    CHECK(foreign.all()->empty());
    const auto lines = again.audit(10);
    REQUIRE(lines.has_value());
    REQUIRE(lines->size() == 3);
    CHECK(lines->front().whom == "ines");
    CHECK((*lines)[1].by == personOf(1));
    CHECK_FALSE(where.sql().run("DELETE FROM audit").has_value());
    CHECK_FALSE(where.sql().run("UPDATE audit SET done_at = 0").has_value());
}
