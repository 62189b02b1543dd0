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

    Told& say(std::uint8_t run, std::uint8_t device, const run::Event& event, std::uint8_t person = 0)
    {
        run::Header header;
        header.clock = ++clock_;
        header.id = idNumber(static_cast<std::uint8_t>(100 + clock_));
        header.device = idNumber(device);
        header.run = idNumber(run);
        header.person = idNumber(person);
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

TEST_CASE("runs that somebody said are one come to the union, and no others to anything")
{
    Told told;
    told.open(1, 10).open(2, 11).open(3, 12);
    CHECK(turnoversTogether(told.state, 0).empty());
    told.say(1, 10, run::ModeChanged{run::Mode::Filtering});
    told.say(1, 10, linkAnswer(idNumber(2), true));
    const auto together = turnoversTogether(told.state, 0);
    REQUIRE(together.size() == 2);
    CHECK(together.contains(idNumber(1)));
    CHECK(together.at(idNumber(1)) == together.at(idNumber(2)));
    told.state.runs.at(idNumber(2)).isPutAway = true; // its times are not to be told
    CHECK(turnoversTogether(told.state, 0).empty());
    told.state.runs.at(idNumber(2)).isPutAway = false;
    told.state.runs.at(idNumber(1)).phase = run::Phase::Closed;
    CHECK(turnoversTogether(told.state, 0).size() == 1);
}

TEST_CASE("at one tablet a run is another person's once both said so")
{
    Told told;
    told.open(1, 10);
    const auto hands = [&] { return handsOf(told.state.runs.at(idNumber(1))); };
    CHECK(hands().how == Hands::How::Opened);
    CHECK_FALSE(hands().offered);
    told.say(1, 10, handoverToPerson(idNumber(51)), 50);
    REQUIRE(hands().offered);
    CHECK(hands().offered->person == idNumber(51));
    CHECK(hands().offered->device.isNone());
    CHECK(hands().offered->by.person == idNumber(50));
    told.say(1, 10, taking(idNumber(50)), 52); // not the one whom it was handed to
    CHECK(hands().how == Hands::How::Opened);
    told.say(1, 11, taking(idNumber(50)), 51); // not at the tablet that has the run
    CHECK(hands().how == Hands::How::Opened);
    told.say(1, 11, adoption()); // it was handed to a person, not to that tablet
    CHECK(told.holder(1) == idNumber(10));
    told.say(1, 10, taking(idNumber(50)), 51);
    CHECK(hands().how == Hands::How::Taken);
    CHECK(hands().since.person == idNumber(51));
    CHECK_FALSE(hands().offered);
    CHECK(told.holder(1) == idNumber(10));
}

TEST_CASE("of two tablets that took a run over by its code the later one has it, and how is told")
{
    Told told;
    told.open(1, 10);
    const auto hands = [&] { return handsOf(told.state.runs.at(idNumber(1))); };
    told.say(1, 11, adoption(run::codeOf(idNumber(1))), 51);
    told.say(1, 12, adoption(run::codeOf(idNumber(1))), 52);
    CHECK(hands().device == idNumber(12));
    CHECK(hands().how == Hands::How::ByCode);
    CHECK(hands().since.person == idNumber(52));
    told.say(1, 12, handoverTo(idNumber(10)), 52);
    REQUIRE(hands().offered);
    CHECK(hands().offered->device == idNumber(10));
    told.say(1, 10, adoption(), 50);
    CHECK(hands().how == Hands::How::Accepted);
}

TEST_CASE("what a kept fact says of hands and links is told, and of another form nothing")
{
    using What = HandedTold::What;
    const auto what = [](const run::Kept& kept) { return handedTold(kept).value().what; };
    CHECK(what(handoverTo(idNumber(1))) == What::ToTablet);
    CHECK(what(handoverToPerson(idNumber(1))) == What::ToPerson);
    CHECK(handedTold(handoverToPerson(idNumber(7)))->other == idNumber(7));
    CHECK(what(adoption()) == What::Adopted);
    CHECK(what(adoption("7K3M9Q")) == What::AdoptedByCode);
    CHECK(what(taking(idNumber(1))) == What::Taken);
    CHECK(what(linkAnswer(idNumber(1), true)) == What::OneWith);
    CHECK(what(linkAnswer(idNumber(1), false)) == What::TwoWith);
    CHECK_FALSE(handedTold({"handover", R"({"from":"A","to":"B","valve":"filtering"})"}));
    CHECK_FALSE(handedTold({"adopt", R"({"last_reading":"00:55:00"})"}));
    CHECK_FALSE(handedTold({"tag", "{}"}));
}

TEST_CASE(
    "time speaks of a run at the tablet that goes on with it, and where it never went on, at each that wrote of it")
{
    Told told;
    told.open(1, 10);
    const auto isTimed = [&](std::uint8_t device) {
        return isTimedAt(told.state.runs.at(idNumber(1)), idNumber(device));
    };
    CHECK(isTimed(10));
    CHECK_FALSE(isTimed(11));
    told.say(1, 11, run::Noted{"seen"});
    CHECK(isTimed(11));
    told.say(1, 12, adoption(run::codeOf(idNumber(1))));
    CHECK(isTimed(12));
    CHECK_FALSE(isTimed(10));
    CHECK_FALSE(isTimed(11));
}
