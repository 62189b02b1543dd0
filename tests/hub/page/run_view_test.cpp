// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/run_view.h"

#include "hub/page/page_site.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::page;
using loopside::test::Looking;
using loopside::test::PageSite;

namespace {

constexpr const char* press = "Press hydraulic unit";

Json demoRun()
{
    PageSite site;
    site.demoShift();
    const Looking looking(site);
    return runView(looking.look(), looking.runAt(press));
}

std::string csvOf(const PageSite& site)
{
    const Looking looking(site);
    return runCsv(looking.look(), looking.runAt(press));
}

} // namespace

TEST_CASE("a run tells its entries in the order in which they were seen, as they were typed")
{
    const Json view = demoRun();
    CHECK(view["name"] == press);
    CHECK(view["word"] == "closed");
    CHECK(view["code"].get<std::string>().size() == 6);
    CHECK(view["turnovers"].get<std::string>().find("of 5") != std::string::npos);
    CHECK(view["stages"][0]["word"] == "below limit"); // nothing lies ahead of a run that is over
    CHECK(view["closing"].get<std::string>().find("The run ended (turnovers met)") == 0);
    const Json& entries = view["entries"];
    REQUIRE(entries.size() > 30);
    CHECK(entries[0]["at"] == "0:00");
    const auto has = [&](const std::string& text) {
        return std::any_of(entries.begin(), entries.end(), [&](const Json& entry) { return entry["text"] == text; });
    };
    CHECK(has("G1 145 kPa · G2 110 kPa · G3 40 kPa · 24 °C"));
    CHECK(has("stage 1: new elements 2"));
    CHECK(has("old gaskets off, pleats even, grey sludge"));
    CHECK(has("sample PH-A drawn"));
}

TEST_CASE("the chart has raw values against the limits, changeovers, samples and what the cart did")
{
    const Json chart = demoRun()["chart"];
    CHECK(chart["unit"] == "kPa");
    REQUIRE(chart["stages"].size() == 2);
    const Json& first = chart["stages"][0];
    CHECK(first["limit"].get<double>() == Approx(170.0));
    CHECK(first["limitText"] == "170 kPa");
    CHECK(first["raw"].size() == chart["minutes"].size());
    CHECK(first["raw"][0].get<double>() == Approx(35.0)); // 145 − 110
    CHECK(first["loading"][0].get<double>() > 0.0);
    CHECK(first["changedAt"] == Json::array({91.0}));
    CHECK(chart["stages"][1]["changedAt"].empty());
    CHECK(chart["samples"][0]["minute"] == 176.0);
    CHECK(chart["ahead"].is_null()); // the run is over
    CHECK(chart["spans"][0]["text"] == "stopped");
    CHECK(chart["spans"][1]["text"] == "bypass");
}

TEST_CASE("an open run has the way ahead of the stage that is first to reach its limit")
{
    PageSite site;
    site.run(press, {"[140, 100, 30]", "[150, 100, 30]", "[165, 100, 30]", "[185, 100, 30]", "[210, 100, 30]"});
    const Looking looking(site);
    const Json view = runView(looking.look(), looking.runAt(press));
    const Json& ahead = view["chart"]["ahead"];
    REQUIRE_FALSE(ahead.is_null());
    CHECK(ahead["stage"] == 0);
    CHECK(ahead["low"].size() == ahead["minutes"].size());
    CHECK(ahead["high"].back().get<double>() >= ahead["low"].back().get<double>());
    CHECK(view["mode"] == "filtering");
    CHECK(view["stages"][0]["text"].get<std::string>().find("ΔP 110 kPa") != std::string::npos);
}

TEST_CASE("findings come with their reasons and what to do")
{
    PageSite site;
    site.run(press, {"[140, 100, 30]", "[180, 100, 30]", "[230, 100, 30]", "[280, 100, 30]"});
    const Looking looking(site);
    const Json findings = runView(looking.look(), looking.runAt(press))["findings"];
    REQUIRE_FALSE(findings.empty());
    CHECK_FALSE(findings[0]["text"].get<std::string>().empty());
    CHECK_FALSE(findings[0]["do"].get<std::string>().empty());
}

TEST_CASE("an entry that was put right says what was logged first, and a struck one that it is struck")
{
    PageSite site;
    site.run(
        press, {"[140, 100, 30]", "[140, 100, 30]"},
        R"(, {"at": "00:12:00", "amend": {"of": "00:05:00", "set": {"gauges": [145, 100, 30]}, "why": "typed wrong"}})");
    const Looking looking(site);
    const Json entries = runView(looking.look(), looking.runAt(press))["entries"];
    const auto found = std::find_if(entries.begin(), entries.end(),
                                    [](const Json& entry) { return entry["at"] == "0:05"; });
    REQUIRE(found != entries.end());
    CHECK((*found)["text"] == "G1 145 kPa · G2 100 kPa · G3 30 kPa · 40 °C");
    CHECK((*found)["mark"].get<std::string>().find("first logged: G1 140 kPa") != std::string::npos);
    CHECK(entries.dump().find("An entry was put right: typed wrong") != std::string::npos);
}

TEST_CASE("the CSV of a run follows RFC 4180: one header, as many fields in each line, quotes doubled")
{
    PageSite site;
    site.run(press, {"[140, 100, 30]"}, R"(, {"at": "00:06:00", "note": "said \"loud\", twice"})");
    const std::string csv = csvOf(site);
    CHECK(csv.starts_with("run_time,utc,person,kind,state,g1,g2,g3,unit,oil,flow,dp1,dp2,text\r\n"));
    CHECK(csv.ends_with("\r\n"));
    CHECK(csv.find("reading-logged,,140,100,30,kPa,40 °C,,40 kPa,70 kPa,\"G1") == std::string::npos);
    CHECK(csv.find("reading-logged,,140,100,30,kPa,40 °C,,40 kPa,70 kPa,G1 140 kPa") != std::string::npos);
    CHECK(csv.find("\"said \"\"loud\"\", twice\"\r\n") != std::string::npos);
}

TEST_CASE("a note that looks like a formula is no formula in the CSV, and stays as typed on the page")
{
    const std::string begin = GENERATE("=", "+", "-", "@");
    PageSite site;
    site.run(press, {"[140, 100, 30]"}, R"(, {"at": "00:06:00", "note": ")" + begin + R"x(HYPERLINK(1)"})x");
    CHECK(csvOf(site).find(",'" + begin + "HYPERLINK(1)\r\n") != std::string::npos);
    const Looking looking(site);
    const Json view = runView(looking.look(), looking.runAt(press));
    CHECK(view["entries"].dump().find("\"" + begin + "HYPERLINK(1)\"") != std::string::npos);
}
