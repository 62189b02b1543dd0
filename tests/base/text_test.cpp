// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"

#include "support/death.h"

#include <catch2/catch.hpp>

#include <array>
#include <limits>

using namespace loopside;

TEST_CASE("spaces and tabs go from the ends only")
{
    CHECK(trimmed("  38 psi\t") == "38 psi");
    CHECK(trimmed(" \t ").empty());
    CHECK(trimmed("").empty());
    CHECK(trimmed("a") == "a");
    CHECK(trimmed("\na\n") == "\na\n");
}

TEST_CASE("text is well-formed UTF-8 or it is not")
{
    // The border cases of the table of well-formed byte sequences, The Unicode Standard, chapter 3, table 3-7; from
    // memory.
    const auto [text, good] = GENERATE(table<std::string, bool>({
        {"", true},
        {"ΔP ≥ 25 psi, 72 °F", true},
        {"\xF0\x9F\x9B\xA2", true},
        {"\xC2\x80", true},
        {"\xC1\xBF", false},
        {"\xE0\xA0\x80", true},
        {"\xE0\x9F\xBF", false},
        {"\xED\x9F\xBF", true},
        {"\xED\xA0\x80", false},
        {"\xF0\x90\x80\x80", true},
        {"\xF0\x8F\xBF\xBF", false},
        {"\xF4\x8F\xBF\xBF", true},
        {"\xF4\x90\x80\x80", false},
        {"\xF5\x80\x80\x80", false},
        {"\x80", false},
        {"\xE2\x82", false},
        {"\xE2\x28\xA1", false},
        {"a\xFF", false},
    }));
    CAPTURE(toHex(std::vector<std::uint8_t>(text.begin(), text.end())));
    CHECK(isUtf8(text) == good);
}

TEST_CASE("text that is quoted is short, has no control signs and is well-formed")
{
    CHECK(quotable("46 cSt") == "46 cSt");
    CHECK(quotable("a\nb\x7F\x1B[31m") == "a?b??[31m");
    CHECK(quotable("a\xC2\x9B"
                   "31mb\xC2\xA0")
          == "a?31mb\xC2\xA0"); // U+009B begins a terminal command; U+00A0 is a plain blank
    CHECK(quotable("\xFFx\xE2\x82") == "?x??");
    CHECK(quotable(std::string(40, 'x')) == std::string(40, 'x'));
    CHECK(quotable(std::string(41, 'x')) == std::string(40, 'x') + "…");
    std::string omegas;
    for (int i = 0; i < 50; ++i) {
        omegas += "Ω";
    }
    CHECK(quotable(omegas) == omegas.substr(0, 80) + "…");
}

TEST_CASE("bytes survive the trip through hexadecimal digits")
{
    const std::array<std::uint8_t, 5> bytes = {0x00, 0x01, 0x9F, 0xA0, 0xFF};
    CHECK(toHex(bytes) == "00019fa0ff");
    std::array<std::uint8_t, 5> again = {};
    REQUIRE(fromHex("00019FA0ff", again));
    CHECK(again == bytes);
}

TEST_CASE("what is not twice as many hexadecimal digits is refused")
{
    std::array<std::uint8_t, 2> bytes = {};
    const auto text = GENERATE(as<const char*>(), "", "0", "000", "00000", "000g", "g000", "00 0", "0x00", "@A00",
                               "/:00");
    CAPTURE(text);
    CHECK_FALSE(fromHex(text, bytes));
}

TEST_CASE("a number is printed with the digits that were asked for")
{
    CHECK(fixed(14.5, 1) == "14.5");
    CHECK(fixed(14.0, 0) == "14");
    CHECK(fixed(2.0 / 3.0, 3) == "0.667");
    CHECK(fixed(1e21, 0) == "1000000000000000000000");
    CHECK(fixed(-1.25, 2) == "-1.25");
}

TEST_CASE("nothing is ever printed as minus nothing")
{
    CHECK(fixed(-0.0, 0) == "0");
    CHECK(fixed(-0.04, 1) == "0.0");
    CHECK(fixed(-0.06, 1) == "-0.1");
}

TEST_CASE("the largest number is printed whole with the most digits")
{
    const std::string text = fixed(-std::numeric_limits<double>::max(), 20);
    CHECK(text.size() == 1 + 309 + 1 + 20); // sign, digits, point, places
    CHECK(text.starts_with("-17976931348623157"));
    CHECK(text.ends_with(".00000000000000000000"));
}

TEST_CASE("digits beyond the range stop the program")
{
    CHECK(support::lastWords([] { static_cast<void>(fixed(1.0, 21)); }));
    CHECK(support::lastWords([] { static_cast<void>(fixed(1.0, -1)); }));
}
