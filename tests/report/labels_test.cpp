// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/labels.h"

#include "report/record.h"
#include "run/run_code.h"
#include "told_story.h"

using namespace loopside;
using namespace loopside::report;
using namespace loopside::test;

namespace {

const words::Words english = words::Words::in("en").value();

std::string someone(const Id& /*person*/)
{
    return "Vera";
}

} // namespace

TEST_CASE("each bottle that was drawn and each element that was taken out has a label")
{
    const auto run = runOf(evidenceOfStory(awkwardRun));
    REQUIRE(run);
    const std::vector<Label> labels = labelsOf(english, *run, someone);
    REQUIRE(labels.size() == 5); // A1, A2, both elements of stage 2, the oil of its housing
    CHECK(labels[0]
          == Label{"Oil sample",
                   "A1",
                   {"From Press, unit 2", "ISO VG 46 hydraulic", "port 1", "Drawn 2026-01-01 00:06 · Vera",
                    "Run " + run::codeOf(run->id)},
                   "A1"});
    CHECK(labels[3]
          == Label{"Used element",
                   "Stage 2 · EL-3",
                   {"Element 2 of 2", "Cart Yellow cart · stage 2", "From Press, unit 2 · ISO VG 46 hydraulic",
                    "Taken out 2026-01-01 02:40 · Vera", "Run " + run::codeOf(run->id)},
                   run::codeOf(run->id) + "-S2-2"});
    CHECK(labels[4]
          == Label{"Container",
                   "USED OIL",
                   {"From Press, unit 2", "ISO VG 46 hydraulic", "Volume: __________", "Container __________",
                    "Filled 2026-01-01 02:40 · Vera", "Run " + run::codeOf(run->id)},
                   run::codeOf(run->id) + "-OIL"});
}

TEST_CASE("labels tell the kind of oil by the word of their language")
{
    const auto run = runOf(evidenceOfStory(awkwardRun));
    REQUIRE(run);
    const std::vector<Label> labels = labelsOf(words::Words::in("de").value(), *run, someone);
    CHECK(labels[0].lines[1] == "ISO VG 46 Hydraulik");
    CHECK(labels[3].lines[2] == "Aus Press, unit 2 · ISO VG 46 Hydraulik");
}

TEST_CASE("what was struck has no label, and practice is marked")
{
    auto run = runOf(evidenceOfStory(awkwardRun));
    REQUIRE(run);
    run->setup.isPractice = true;
    for (run::Fact& fact : run->facts) {
        fact.struck = fact.struck || std::holds_alternative<run::ElementsChanged>(fact.original);
    }
    const std::vector<Label> labels = labelsOf(english, *run, someone);
    CHECK(labels.size() == 2);
    for (const Label& label : labels) {
        CHECK(label.title == "Oil sample");
        CHECK(label.isPractice);
    }
}

TEST_CASE("a container of used oil is marked as such, and what was not told is left to fill in")
{
    const auto litres = [](const char* text) { return units::Typed<units::Volume>::parse(text).value(); };
    run::Job job{.id = {},
                 .what = run::TransferOpened{.tank = "Sump 3",
                                             .cart = "Grey cart",
                                             .capacity = litres("200 L"),
                                             .planned = litres("180 L")},
                 .opened = {},
                 .clock = {}};
    const auto filled = labelsOf(english, job, someone);
    REQUIRE(filled.size() == 1);
    CHECK(filled[0].name == "USED OIL");
    CHECK(filled[0].lines[0] == "From Sump 3");
    CHECK(filled[0].lines[1] == "__________");
    CHECK(filled[0].lines[2] == "Volume: __________");
    job.facts.push_back({{}, run::TransferStopped{litres("180 L")}});
    CHECK(labelsOf(english, job, someone)[0].lines[2] == "Volume: 180 L");
    job.what = run::FlushOpened{.cart = "Grey cart", .left = litres("20 L")};
    CHECK(labelsOf(english, job, someone).empty());
}
