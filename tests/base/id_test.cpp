// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/id.h"

#include <catch2/catch.hpp>

#include <set>
#include <vector>

using namespace loopside;

TEST_CASE("an id survives the trip through text")
{
    const auto id = idFromText("017F22E2-79B0-7CC3-98C4-DC0C0C07398F");
    REQUIRE(id);
    CHECK(id->bytes[0] == 0x01);
    CHECK(id->bytes[15] == 0x8F);
    CHECK(toText(*id) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    CHECK(idFromText(toText(*id)) == *id);
}

TEST_CASE("text that is no id is refused")
{
    const auto text = GENERATE(as<const char*>(), "", "017f22e2-79b0-7cc3-98c4-dc0c0c07398",
                               "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0", "017f22e279b07cc398c4dc0c0c07398f0000",
                               "017f22e2-79b0-7cc3-98c4-dc0c0c07398g", "017f22e2-79b0-7cc3-98c4-dc0-0c07398f",
                               "017f22e2_79b0-7cc3-98c4-dc0c0c07398f", "{17f22e2-79b0-7cc3-98c4-dc0c0c07398}");
    CAPTURE(text);
    const auto id = idFromText(text);
    REQUIRE_FALSE(id);
    CHECK(id.error().code == Errc::Malformed);
}

TEST_CASE("only the id of zeros is none")
{
    CHECK(Id{}.isNone());
    CHECK(idFromText("00000000-0000-0000-0000-000000000000").value().isNone());
    CHECK_FALSE(idFromText("00000000-0000-0000-0000-000000000001").value().isNone());
}

TEST_CASE("an id of version 7 carries its moment, its version and its variant")
{
    // The moment and the first 48 bits are those of the example in RFC 9562, appendix A.6 (from memory):
    // 2022-02-22 19:22:22 UTC is 1645557742000 ms, hexadecimal 017F22E279B0.
    SeededRandom random(1);
    IdMaker maker(random);
    for (int i = 0; i < 100; ++i) {
        const std::string text = toText(maker.next(1645557742000));
        CAPTURE(text);
        CHECK(text.starts_with("017f22e2-79b0-7"));
        CHECK(std::string("89ab").find(text[19]) != std::string::npos);
    }
}

TEST_CASE("ids strictly increase, within one millisecond and when the wall clock falls back")
{
    SeededRandom random(7);
    IdMaker maker(random);
    Id last = {};
    for (const std::int64_t wallMs : {1000, 1000, 1001, 5, 0, -3, 1001, 1002}) {
        for (int i = 0; i < 3000; ++i) { // two rounds overflow the counter of 12 bits
            const Id next = maker.next(wallMs);
            REQUIRE(last < next);
            last = next;
        }
    }
}

TEST_CASE("two makers with different seeds do not meet")
{
    std::set<Id> ids;
    for (std::uint64_t seed = 0; seed < 50; ++seed) {
        SeededRandom random(seed);
        IdMaker maker(random);
        for (int i = 0; i < 20; ++i) {
            ids.insert(maker.next(1645557742000));
        }
    }
    CHECK(ids.size() == 1000);
}

TEST_CASE("seeded randomness is SplitMix64")
{
    // The first numbers of the public-domain reference implementation for seed 1234567; from memory.
    SeededRandom random(1234567);
    for (const std::uint64_t expected : {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                         4593380528125082431U, 16408922859458223821U}) {
        CHECK(random.next() == expected);
    }
}
