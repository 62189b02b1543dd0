// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/transfer.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

Transfer spentOil()
{
    return {160.0 * litre, 205.0 * litre, 60.0 * litre, 19.0 * litrePerMinute};
}

std::string refusal(const Transfer& transfer)
{
    const auto plan = planTransfer(transfer);
    REQUIRE_FALSE(plan.has_value());
    CHECK(plan.error().code == loopside::Errc::OutOfRange);
    return plan.error().sentence;
}

} // namespace

TEST_CASE("160 L into a drum that holds 60 L already stop at 6.9 min and need a second drum")
{
    // A case from the trade: free 145 L, usable 130 L, drum then 93 % full, 6.9 min at 19 L/min, 30 L left over.
    const TransferPlan plan = planTransfer(spentOil()).value();
    CHECK_THAT(plan.free.in(litre), WithinRel(145.0, 1e-9));
    CHECK_THAT(plan.usable.in(litre), WithinAbs(130.0, 1.0));
    CHECK_THAT(plan.first.in(litre), WithinRel(130.5, 1e-9));
    CHECK_THAT(plan.fullMax.in(percent), WithinAbs(93.0, 0.5));
    CHECK_THAT(plan.stopAt.in(minute), WithinAbs(6.9, 0.05));
    CHECK(plan.containers == 2);
    CHECK_THAT(plan.left.in(litre), WithinAbs(30.0, 1.0));
    CHECK_THAT(plan.last.in(litre), WithinRel(29.5, 1e-9));
    CHECK(transferTurnovers == 0.0);
    CHECK(markAfterTransfer == "flush before clean use");
}

TEST_CASE("oil that fits needs one container and stops when it is moved")
{
    Transfer transfer = spentOil();
    transfer.oil = 38.0 * litre;
    const TransferPlan plan = planTransfer(transfer).value();
    CHECK(plan.containers == 1);
    CHECK(plan.left == Volume{});
    CHECK_THAT(plan.stopAt.in(minute), WithinRel(2.0, 1e-9)); // computed: 38 L at 19 L/min
    CHECK(plan.last == plan.first);
}

TEST_CASE("no container is planned over 95 % full, all oil finds its place, and time is never more than oil")
{
    const double oil = GENERATE(1.0, 130.5, 160.0, 314.9, 315.1, 2000.0);
    const double holds = GENERATE(0.0, 60.0, 150.0, 194.0);
    CAPTURE(oil, holds);
    const TransferPlan plan = planTransfer({oil * litre, 205.0 * litre, holds * litre, 19.0 * litrePerMinute}).value();
    CHECK(plan.fullMax.in(percent) <= 95.0 + 1e-9);
    CHECK_THAT((19.0 * litrePerMinute * plan.stopAt).in(litre), WithinRel(plan.first.in(litre), 1e-9));
    const double each = 0.9 * 205.0;
    const double middle = std::max(0, plan.containers - 2) * each;
    const double placed = plan.first.in(litre) + (plan.containers > 1 ? middle + plan.last.in(litre) : 0.0);
    CHECK_THAT(placed, WithinRel(oil, 1e-9));
    CHECK(plan.last.in(litre) <= each * (1.0 + 1e-9));
    CHECK(plan.last > Volume{});
}

TEST_CASE("a transfer that cannot be is refused with the fault named")
{
    const double wrong = GENERATE(0.0, -1.0, std::nan(""));
    Transfer transfer = spentOil();
    transfer.oil = wrong * litre;
    CHECK_THAT(refusal(transfer), Contains("oil to move"));
    transfer = spentOil();
    transfer.container = wrong * litre;
    CHECK_THAT(refusal(transfer), Contains("container's volume"));
    transfer = spentOil();
    transfer.flow = wrong * litrePerMinute;
    CHECK_THAT(refusal(transfer), Contains("flow"));
    transfer = spentOil();
    transfer.holds = -1.0 * litre;
    CHECK_THAT(refusal(transfer), Contains("already in the container"));
    transfer.holds = 206.0 * litre;
    CHECK_THAT(refusal(transfer), Contains("more than its volume"));
    transfer.holds = 205.0 * litre;
    CHECK_THAT(refusal(transfer), Contains("nothing may be added"));
    transfer.holds = 195.0 * litre; // 95.1 %
    CHECK_THAT(refusal(transfer), Contains("nothing may be added"));
    transfer = spentOil();
    transfer.oil = 1e6 * litre;
    CHECK_THAT(refusal(transfer), Contains("1000 containers"));
}

TEST_CASE("what a person is told of a transfer that cannot be has its own sentence, with the volumes")
{
    Transfer transfer = spentOil();
    const auto told = [&] { return planTransfer(transfer).error().say; };
    transfer.holds = 206.0 * litre;
    const std::vector<loopside::Message::Argument> volumes = {{"holds", "206.0 L"}, {"container", "205.0 L"}};
    CHECK(told() == loopside::Message{"transfer.over-full", volumes});
    transfer.holds = 205.0 * litre;
    CHECK(told().id == "transfer.full");
    transfer.holds = -1.0 * litre;
    CHECK(told().id == "number.zero-or-more");
    transfer = spentOil();
    transfer.oil = 1e6 * litre;
    CHECK(told().id == "transfer.too-many");
}

TEST_CASE("the label says used oil, where it came from and leaves the date to fill in")
{
    const auto label = usedOilLabel({"SP-4", "ISO VG 68 hydraulic", 130.2 * litre});
    CHECK(label
          == std::vector<std::string>{"Used Oil", "From: SP-4", "Fluid: ISO VG 68 hydraulic", "Volume: about 130 L",
                                      "Date: __________"});
    CHECK(usedOilLabel({"", "", 10.0 * litre})[1] == "From: __________");
}

TEST_CASE("every caution of pumping waste is there, once, the source tank first")
{
    const auto cautions = transferCautions();
    std::set<std::string_view> ids;
    std::string all;
    for (const auto& caution : cautions) {
        CHECK(caution.sentence.ends_with('.'));
        ids.insert(caution.id);
        all += std::string(caution.sentence) + " ";
    }
    CHECK(ids.size() == cautions.size());
    CHECK(cautions.front().id == "source-confirmed");
    for (const char* said : {"second time", "elements are spent on waste", "vented", "solvents or coolant",
                             "do not pump", "site procedure", "flush before clean use"}) {
        CHECK_THAT(all, Contains(said));
    }
}
