// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/page_site.h"

#include "ledger/logbook.h"
#include "ledger/read_all.h"
#include "site/preview.h"
#include "story/replay.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace loopside::test {

namespace {

std::string demoFile(const std::string& name)
{
    std::ifstream file(std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/" + name);
    REQUIRE(file.good());
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

constexpr const char* cart = R"({"name": "Cart B", "flow": "24 L/min", "relief": "690 kPa", "hold_up": "8 L",
    "last_fluid": "ISO VG 46 hydraulic", "gauges": {"unit": "kPa", "span": 700, "graduation": 5, "grade": "B"},
    "static_head": "8 kPa"})";

constexpr const char* stages = R"([
    {"elements": 2, "kind": "particle", "type": "P10 glass", "rating_um": 10, "beta": 200, "clean_dp": "16 kPa",
     "clean_at": {"flow": "24 L/min", "viscosity": "46 cSt"}, "change_limit": "170 kPa"},
    {"elements": 2, "kind": "particle", "type": "P3 glass", "rating_um": 3, "beta": 1000, "clean_dp": "30 kPa",
     "clean_at": {"flow": "24 L/min", "viscosity": "46 cSt"}, "change_limit": "240 kPa"}])";

std::string minuteText(std::size_t minute)
{
    const auto two = [](std::size_t number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return two(minute / 60) + ":" + two(minute % 60) + ":00";
}

Id deviceOfPlanner()
{
    Id id;
    id.bytes[0] = 0xDD;
    return id;
}

} // namespace

PageSite::PageSite() : site_{site::siteFrom(demoFile("site.json")).value()} {}

PageSite& PageSite::run(const std::string& tank, const std::vector<std::string>& sets, const std::string& more,
                        const std::string& target)
{
    std::string text = R"({"title": "A run", "tank": {"name": ")" + tank
        + R"(", "volume": "760 L", "fluid": {"kind": "hydraulic", "grade": "ISO VG 46", "vi": 98}, "mixing": 0.7}, "cart": )"
        + cart + R"(, "stages": )" + stages + R"(, "target": )" + target
        + R"(, "entries": [{"at": "00:00:00", "mode": "filtering"})";
    for (std::size_t i = 0; i < sets.size(); ++i) {
        text += R"(, {"at": ")" + minuteText(5 * (i + 1)) + R"(", "gauges": )" + sets[i] + R"(, "oil": "40 C"})";
    }
    return story(text + more + "]}");
}

PageSite& PageSite::demoShift()
{
    return story(demoFile("shift.json"));
}

PageSite& PageSite::story(const std::string& text)
{
    const auto story = story::parseStory(text);
    CAPTURE(text, story ? std::string() : story.error().sentence);
    REQUIRE(story.has_value());
    const auto done = story::replay(*story, story::saltOf(text), *journal_, {});
    CAPTURE(done ? std::string() : done.error().sentence);
    REQUIRE(done.has_value());
    return *this;
}

PageSite& PageSite::jobs(const std::string& csv)
{
    const page::Known now = known();
    const auto preview = site::previewOf("jobs.csv", csv, "job", now.site, now.state->stock);
    REQUIRE(preview.has_value());
    return submit(preview->command());
}

PageSite& PageSite::stock(const std::string& type, int elements, const std::string& why)
{
    return submit(run::MoveStock{type, elements, why});
}

PageSite& PageSite::say(const std::string& tank, const run::Said& said)
{
    const page::Known now = known();
    for (const auto& [id, run] : now.state->runs) {
        if (run.setup.tank.name == tank) {
            submit(run::Say{id, said});
        }
    }
    return *this;
}

PageSite& PageSite::submit(const run::Command& command)
{
    OneMoment clock(after(0));
    SeededRandom random(static_cast<std::uint64_t>(*journal_->last()) + 77);
    auto logbook = ledger::Logbook::open(*journal_, clock, random);
    REQUIRE(logbook.has_value());
    ledger::Seed seed = {};
    seed.fill(0xDD);
    REQUIRE(logbook->enrol(deviceOfPlanner(), ledger::DeviceKey::fromSeed(seed)).has_value());
    const auto done = logbook->submit(command, {deviceOfPlanner(), site_.people.front().id});
    CAPTURE(done ? std::string() : done.error().sentence);
    REQUIRE(done.has_value());
    return *this;
}

page::Known PageSite::known() const
{
    page::Known known;
    const auto folded = ledger::fold([&](const auto& take) { return ledger::readAll(*journal_, take); });
    REQUIRE(folded.has_value());
    known.state = std::make_shared<const run::State>(folded->state);
    known.site = site::withRecords(site_, known.state->records);
    known.last = *journal_->last();
    known.device = deviceOfPlanner();
    return known;
}

Stamp PageSite::after(int minutes) const
{
    Stamp latest{1'783'836'900'000, 120, 0, {}};
    const auto all = journal_->read(0, 100'000);
    REQUIRE(all.has_value());
    for (const ledger::Stored& stored : *all) {
        if (stored.position == 1 || stored.entry.header.entered.wallMs > latest.wallMs) {
            latest = stored.entry.header.entered;
        }
    }
    latest.wallMs += std::int64_t{60'000} * minutes;
    latest.boot = deviceOfPlanner();
    return latest;
}

Looking::Looking(const PageSite& site, int minutes, const std::string& language)
    : Looking{site.known(), site.after(minutes), language}
{
}

Looking::Looking(page::Known known, const Stamp& now, const std::string& language)
    : standings_{std::make_shared<const page::Known>(std::move(known))},
      words_{words::Words::in(language).value()},
      look_{standings_, words_, now}
{
}

const run::RunState& Looking::runAt(const std::string& tank) const
{
    const auto found = std::ranges::find_if(look_.state().runs,
                                            [&](const auto& one) { return one.second.setup.tank.name == tank; });
    REQUIRE(found != look_.state().runs.end());
    return found->second;
}

} // namespace loopside::test
