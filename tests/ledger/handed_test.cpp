// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/handed.h"

#include "ledger/some_setup.h"
#include "run/run_code.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;

namespace {

Id idNumber(std::uint8_t number)
{
    return Id{.bytes = {number}};
}

/// Runs to which devices say something, one after the other.
class Told
{
public:
    Told& open(std::uint8_t run, std::uint8_t device)
    {
        return say(run, device, run::RunOpened{test::bareSetup(), {}});
    }

    Told& say(std::uint8_t run, std::uint8_t device, const run::Event& event)
    {
        run::Header header;
        header.clock = ++clock_;
        header.id = idNumber(static_cast<std::uint8_t>(100 + clock_));
        header.device = idNumber(device);
        header.run = idNumber(run);
        state = run::apply(std::move(state), header, event);
        last = header.id;
        return *this;
    }

    [[nodiscard]] Id holder(std::uint8_t run) const { return holderOf(state.runs.at(idNumber(run))); }

    run::State state = {};
    Id last = {};

private:
    std::uint64_t clock_ = 0;
};

} // namespace

TEST_CASE("a run is another tablet's once both said so")
{
    Told told;
    told.open(1, 10);
    CHECK(told.holder(1) == idNumber(10));
    told.say(1, 10, handoverTo(idNumber(11)));
    CHECK(told.holder(1) == idNumber(10)); // offered, not accepted
    told.say(1, 12, adoption());
    CHECK(told.holder(1) == idNumber(10)); // to another one
    told.say(1, 11, adoption());
    CHECK(told.holder(1) == idNumber(11));
    told.say(1, 10, handoverTo(idNumber(12))).say(1, 12, adoption());
    CHECK(told.holder(1) == idNumber(11)); // by one who does not hold it
    told.say(1, 11, handoverTo(idNumber(10))).say(1, 10, adoption());
    CHECK(told.holder(1) == idNumber(10)); // and back
}

TEST_CASE("a run is adopted by its code alone, and by no other")
{
    Told told;
    told.open(1, 10);
    told.say(1, 11, adoption("ZZZZZZ"));
    CHECK(told.holder(1) == idNumber(10));
    told.say(1, 11, adoption(run::codeOf(idNumber(1))));
    CHECK(told.holder(1) == idNumber(11));
}

TEST_CASE("a handover that was struck, and facts of another form, hand over nothing")
{
    Told told;
    told.open(1, 10).say(1, 10, handoverTo(idNumber(11)));
    run::Amended strike;
    strike.of = told.last;
    strike.struck = true;
    strike.why = "slipped";
    told.say(1, 10, strike).say(1, 11, adoption());
    CHECK(told.holder(1) == idNumber(10));
    told.say(1, 10, run::Kept{"handover", "\"night shift\""}).say(1, 11, run::Kept{"adopt", "true"});
    told.say(1, 10, run::Kept{"handover", "{\"to\":7}"}).say(1, 11, adoption());
    CHECK(told.holder(1) == idNumber(10));
    CHECK_FALSE(handedTo(run::Kept{"tag", "{\"to\":\"" + toText(idNumber(11)) + "\"}"}));
    CHECK(handedTo(handoverTo(idNumber(11))) == idNumber(11));
}

TEST_CASE("the latest answer to a proposal counts, whichever of the two runs it was said in")
{
    Told told;
    told.open(1, 10).open(2, 11).open(3, 12);
    const run::RunPair pair = {idNumber(1), idNumber(2)};
    told.say(1, 10, linkAnswer(idNumber(2), true));
    CHECK(linksSaid(told.state).accepted == std::set{pair});
    told.say(2, 11, linkAnswer(idNumber(1), false));
    CHECK(linksSaid(told.state).accepted.empty());
    CHECK(linksSaid(told.state).declined == std::set{pair});
    CHECK(linksSaid(told.state).all() == std::set{pair});
    told.say(2, 11, linkAnswer(idNumber(1), true)).say(1, 10, linkAnswer(idNumber(1), true)); // never with itself
    CHECK(linksSaid(told.state).accepted == std::set{pair});
}

TEST_CASE("runs are one over others too, as far as they are here")
{
    Told told;
    told.open(1, 10).open(2, 11).open(3, 12).open(4, 13);
    told.say(1, 10, linkAnswer(idNumber(2), true)).say(3, 12, linkAnswer(idNumber(2), true));
    told.say(4, 13, linkAnswer(idNumber(1), false)).say(3, 12, linkAnswer(idNumber(9), true));
    CHECK(linkedWith(told.state, idNumber(1)) == std::set{idNumber(1), idNumber(2), idNumber(3)});
    CHECK(linkedWith(told.state, idNumber(4)) == std::set{idNumber(4)});
}
