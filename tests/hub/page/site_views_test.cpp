// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/site_views.h"

#include "hub/page/page_site.h"
#include "run/stock.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::page;
using loopside::test::Looking;
using loopside::test::PageSite;

namespace {

/// Stage 1 at 40 kPa of 170 and stage 2 at 70 of 240, again and again.
const std::vector<std::string> quiet = {"[140, 100, 30]", "[140, 100, 30]", "[140, 100, 30]"};

/// Stage 1 rises over its limit of 170 kPa.
const std::vector<std::string> rising = {"[140, 100, 30]", "[180, 100, 30]", "[230, 100, 30]", "[280, 100, 30]"};

/// Stage 1 goes toward its limit.
const std::vector<std::string> loading = {"[140, 100, 30]", "[146, 100, 30]", "[152, 100, 30]", "[159, 100, 30]",
                                          "[167, 100, 30]", "[176, 100, 30]", "[186, 100, 30]", "[197, 100, 30]"};

constexpr const char* press = "Press hydraulic unit";
constexpr const char* tote = "Store tote 3";

std::vector<std::string> column(const Json& view, const std::string& member)
{
    std::vector<std::string> values;
    for (const Json& row : view["rows"]) {
        values.push_back(row.contains(member) ? row[member].get<std::string>() : std::string());
    }
    return values;
}

Json rowOf(const Json& view, const std::string& member, const std::string& value)
{
    const auto& rows = view["rows"];
    const auto found = std::ranges::find_if(rows, [&](const Json& row) { return row[member] == value; });
    CAPTURE(view.dump(1), value);
    REQUIRE(found != rows.end());
    return *found;
}

using Texts = std::vector<std::string>;

} // namespace

TEST_CASE("an empty site has no rows but its tanks and element types")
{
    const Looking looking{PageSite()};
    for (const auto view : {todayView, stagesView, alertsView, missingView}) {
        CHECK(view(looking.look())["rows"].empty());
    }
    CHECK(tanksView(looking.look())["rows"].size() == 5);
    CHECK(column(elementsView(looking.look()), "name").front() == "P10 glass");
}

TEST_CASE("today begins with the open run that is gravest, then come planned jobs, then what was closed today")
{
    PageSite site;
    site.run(tote, quiet).run(press, rising).run("Winder gearbox", quiet, R"(, {"at": "00:20:00", "mode": "stopped"},
        {"at": "00:21:00", "close": {"ending": "stopped-early", "why": "cart needed elsewhere"}})");
    site.jobs("order,tank,due\nWO-2,Debarker gearbox,2026-02-01\nWO-1,Debarker gearbox,2025-12-01\n");
    const Json view = todayView(Looking(site).look());
    CHECK(column(view, "name") == Texts{press, tote, "Debarker gearbox", "Debarker gearbox", "Winder gearbox"});
    CHECK(column(view, "kind") == Texts{"run", "run", "job", "job", "run"});
    CHECK(column(view, "sign") == Texts{"limit", "ok", "caution", "later", "done"});
    CHECK(column(view, "word") == Texts{"at limit", "below limit", "overdue", "planned", "closed"});
    CHECK(column(view, "detail")[4] == "Cart B · 0.6 of 5 turnovers · stopped early");
    CHECK(column(view, "detail")[2] == "WO-1");
}

TEST_CASE("a reading that is overdue is loud today, and is missing")
{
    PageSite site;
    site.run(press, quiet);
    const Json inTime = todayView(Looking(site, 1).look());
    CHECK(inTime["rows"][0]["isLoud"] == false);
    CHECK(missingView(Looking(site, 1).look())["rows"].empty());

    const Looking late(site, 45);
    const Json row = todayView(late.look())["rows"][0];
    CHECK(row["isLoud"] == true);
    CHECK(row["word"] == "late");
    CHECK(row["next"].get<std::string>().ends_with("min late"));
    CHECK(column(missingView(late.look()), "kind") == Texts{"reading"});
}

TEST_CASE("a tank is held against the target code of its job or run by the rule of one number of scatter")
{
    PageSite site;
    const std::string sampled = R"(, {"at": "00:20:00", "sample": {"port": "after", "id": "S1"}},
        {"at": "00:25:00", "mode": "stopped"}, {"at": "00:26:00", "close": {"ending": "stopped-early", "why": "x"}},
        {"at": "10:00:00", "result": {"sample": "S1", "code": "15/13/10"}})";
    site.run(press, quiet, sampled, R"({"turnovers": 5, "code": "17/15/12"})");
    const Json met = rowOf(tanksView(Looking(site).look()), "name", press);
    CHECK(met["code"] == "15/13/10");
    CHECK(met["target"] == "17/15/12");
    CHECK(met["sign"] == "ok");
    CHECK(met["word"] == "target met");

    site.jobs("order,tank,target_code\nWO-1,Press hydraulic unit,13/11/8\n");
    const Json missed = rowOf(tanksView(Looking(site).look()), "name", press);
    CHECK(missed["target"] == "13/11/8");
    CHECK(missed["sign"] == "caution");

    site.jobs("order,tank,target_code\nWO-1,Press hydraulic unit,15/13/10\n");
    CHECK(rowOf(tanksView(Looking(site).look()), "name", press)["word"] == "not proven");
    CHECK(rowOf(tanksView(Looking(site).look()), "name", tote)["word"] == "no target");
    site.jobs("order,tank,target_code\nWO-2,Winder gearbox,17/15/12\n");
    CHECK(rowOf(tanksView(Looking(site).look()), "name", "Winder gearbox")["word"] == "no code known");
}

TEST_CASE("the stage nearest its limit comes first, with what fills it and what is expected")
{
    PageSite site;
    site.run(tote, quiet).run(press, rising);
    const Json view = stagesView(Looking(site).look());
    REQUIRE(view["rows"].size() == 4);
    const Json& first = view["rows"][0];
    CHECK(first["name"] == "Press hydraulic unit · Cart B");
    CHECK(first["stage"] == "Stage 1");
    CHECK(first["drop"] == "180 kPa");
    CHECK(first["limit"] == "170 kPa");
    CHECK(first["fill"].get<double>() == Approx(1.059).margin(0.001));
    CHECK(first["sign"] == "limit");
    CHECK_FALSE(first["ahead"].get<std::string>().empty());
    CHECK(view["rows"][3]["fill"].get<double>() == Approx(40.0 / 170.0).margin(0.001));
}

TEST_CASE("no time of a limit is told by the clock while nothing is filtered")
{
    const auto aheadOf = [](const std::string& more) {
        PageSite site;
        site.run(press, loading, more);
        const Json view = stagesView(Looking(site).look());
        return rowOf(view, "stage", "Stage 1")["ahead"].get<std::string>();
    };
    CHECK(aheadOf("").find("Stage 1 reaches 170 kPa about") == 0);
    CHECK(aheadOf(R"(, {"at": "00:41:00", "mode": "stopped"})").find("is not told by the clock") != std::string::npos);
}

TEST_CASE("alerts that stand are told as they were told, with who acknowledged them")
{
    PageSite site;
    site.run(press, rising, R"(, {"at": "00:21:00", "person": "Ines", "ack": {"alert": "stage-at-limit", "stage": 1,
        "why": "elements on their way"}})");
    const Json view = alertsView(Looking(site).look());
    REQUIRE_FALSE(view["rows"].empty());
    const Json& first = view["rows"][0];
    CHECK(first["sign"] == "limit");
    CHECK(first["word"] == "acknowledged");
    CHECK(first["text"].get<std::string>().find("stage 1 is over its change limit. ΔP 180 kPa") != std::string::npos);
    CHECK(first["became"].get<std::string>().find("elements on their way") != std::string::npos);
}

TEST_CASE("a closed run misses its sample, its result and its signature until they are told")
{
    const std::string stop = R"(, {"at": "00:20:00", "mode": "stopped"})";
    const std::string sample = R"(, {"at": "00:17:00", "sample": {"port": "after", "id": "S1"}})";
    const std::string close = R"(, {"at": "00:21:00", "close": {"ending": "stopped-early", "why": "signed"}})";
    const auto kinds = [](const std::string& more) {
        PageSite site;
        site.run(press, quiet, more);
        return column(missingView(Looking(site).look()), "kind");
    };
    CHECK(kinds(stop + close) == Texts{"sample"});
    CHECK(kinds(sample + stop + close) == Texts{"result"});
    CHECK(kinds(sample + stop + close + R"(, {"at": "09:00:00", "result": {"sample": "S1", "code": "16/14/11"}})")
              .empty());
    CHECK(kinds(stop + R"(, {"at": "00:21:00", "close": {"ending": "stopped-early", "why": ""}})")
          == Texts{"sample", "sign-off"});
}

TEST_CASE("elements are counted against what runs need and jobs reserve")
{
    PageSite site;
    site.demoShift();
    CHECK(rowOf(elementsView(Looking(site).look()), "name", "P10 glass")["used"] == 2);
    CHECK(rowOf(elementsView(Looking(site).look()), "name", "P10 glass")["sign"] == "unknown");

    site.stock("P10 glass", 5, std::string(run::stockCounted));
    CHECK(rowOf(elementsView(Looking(site).look()), "name", "P10 glass")["word"] == "enough");
    site.jobs("order,tank,cart,elements\nWO-1,Winder gearbox,Cart B,6\n");
    const Json row = rowOf(elementsView(Looking(site).look()), "name", "P10 glass");
    CHECK(row["wanted"] == "6 reserved by jobs");
    CHECK(row["word"] == "3 short"); // 5 counted, 2 of the shift taken out
    CHECK(row["sign"] == "caution");
}

TEST_CASE("what was verified is told, and each fault")
{
    test::PageSite site;
    site.demoShift();
    Known known = site.known();
    CHECK(verifyView(Looking(known, site.after(0)).look())["sign"] == "unknown");
    known.verified = Verified{}; // looked when there was nothing yet
    CHECK(verifyView(Looking(known, site.after(0)).look())["sign"] == "unknown");
    known.verified = Verified{known.last, 1'783'836'900'000, ledger::verifyAll(site.journal())};
    CHECK(verifyView(Looking(known, site.after(0)).look())["sign"] == "ok");
    known.verified->faults.push_back({3, "entry 3 was changed"});
    const Json view = verifyView(Looking(known, site.after(0)).look());
    CHECK(view["sign"] == "stop");
    CHECK(view["faults"] == Json::array({"entry 3 was changed"}));
}

TEST_CASE("every view has a word for every state in every language, and no sentence is missing")
{
    PageSite site;
    site.demoShift().run(tote, rising).run("Winder gearbox", quiet);
    site.jobs("order,tank,cart,elements,due\nWO-1,Winder gearbox,Cart B,6,2026-01-01\n");
    for (const std::string_view language : words::languages()) {
        const Looking looking(site, 60, std::string(language));
        for (const auto view : {todayView, tanksView, stagesView, alertsView, missingView, elementsView}) {
            const Json told = view(looking.look());
            CAPTURE(language, told.dump(1));
            CHECK(told.dump().find("[") == told.dump().find("[{"));
            for (const Json& row : told["rows"]) {
                CHECK_FALSE(row["sign"].get<std::string>().empty());
                CHECK_FALSE(row["word"].get<std::string>().empty());
            }
        }
    }
}

TEST_CASE("practice is in no view")
{
    PageSite site;
    site.run(press, rising);
    Known known = site.known();
    run::State state = *known.state;
    for (auto& [id, run] : state.runs) {
        run.setup.isPractice = true;
    }
    known.state = std::make_shared<const run::State>(std::move(state));
    const Looking looking(known, site.after(60));
    for (const auto view : {todayView, stagesView, alertsView, missingView}) {
        CHECK(view(looking.look())["rows"].empty());
    }
}
