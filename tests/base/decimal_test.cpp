// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/decimal.h"

#include "support/death.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace loopside;
using loopside::support::lastWords;

namespace {

Decimal typed(const char* text)
{
    return Decimal::parse(text).value();
}

} // namespace

TEST_CASE("a number is kept as it was typed")
{
    const auto [text, kept, places] = GENERATE(table<const char*, const char*, int>({
        {"38", "38", 0},
        {" 23,5\t", "23.5", 1},
        {"-0.5", "-0.5", 1},
        {"+7", "7", 0},
        {"1.50", "1.50", 2},
        {".5", "0.5", 1},
        {"5.", "5", 0},
        {"007", "7", 0},
        {"-0", "0", 0},
        {"0.000001", "0.000001", 6},
        {"-0.05", "-0.05", 2},
        {"999999999999.999999", "999999999999.999999", 6},
        {"000000000000000000042", "42", 0},
    }));
    CAPTURE(text);
    const auto number = Decimal::parse(text);
    REQUIRE(number);
    CHECK(number->toText() == kept);
    CHECK(number->places() == places);
}

TEST_CASE("text that is no number is refused in a sentence that quotes it")
{
    const auto text = GENERATE(as<const char*>(), "", " ", ".", ",", "-", "+", "--1", "+-1", "1-", "1.2.3", "1,234.5",
                               "1 2", "1e3", "0x10", "nan", "inf", "3 8", "٣", "−5");
    CAPTURE(text);
    const auto number = Decimal::parse(text);
    REQUIRE_FALSE(number);
    CHECK(number.error().code == Errc::Malformed);
    CHECK(number.error().sentence == "\"" + std::string(text) + "\" is not a number");
}

TEST_CASE("a comma that may part thousands or a fraction is refused, and one that cannot is read")
{
    for (const char* text : {"1,500", "12,000", "-1,500", " 999,999 "}) {
        CAPTURE(text);
        const auto number = Decimal::parse(text);
        REQUIRE_FALSE(number);
        CHECK(number.error().code == Errc::Malformed);
        CHECK(number.error().sentence.find("two ways") != std::string::npos);
    }
    CHECK(typed("0,500").toText() == "0.500");
    CHECK(typed("1,50").toText() == "1.50");
    CHECK(typed("1,5000").toText() == "1.5000");
    CHECK(typed("1.500").toText() == "1.500");
    CHECK(typed(",500").toText() == "0.500");
}

TEST_CASE("a number with more digits than a reading can have is out of range")
{
    const auto text = GENERATE(as<const char*>(), "1000000000000", "-1234567890123", "0.0000001", "1.2345678",
                               "99999999999999999999999999999999999999");
    CAPTURE(text);
    const auto number = Decimal::parse(text);
    REQUIRE_FALSE(number);
    CHECK(number.error().code == Errc::OutOfRange);
}

TEST_CASE("gauges are subtracted in the digits as typed")
{
    CHECK((typed("43") - typed("1")).toText() == "42");
    CHECK((typed("0.3") - typed("0.1")).toText() == "0.2");
    CHECK((typed("2.60") - typed("2.6")).toText() == "0.00");
    CHECK((typed("1.5") + typed("0.25")).toText() == "1.75");
    CHECK((typed("1") - typed("1.000001")).toText() == "-0.000001");
}

TEST_CASE("numbers are compared by value, whatever their places")
{
    CHECK(typed("1.50") == typed("1.5"));
    CHECK(typed("-0") == typed("0.00"));
    CHECK(typed("24.9") < typed("25"));
    CHECK(typed("25.000001") > typed("25"));
    CHECK(typed("-3") < typed("-2.5"));
    CHECK(typed("999999999999") > typed("-999999999999.999999"));
}

TEST_CASE("the nearest decimal of a number has the digits that were asked for")
{
    CHECK(Decimal::nearest(14.4999, 1).toText() == "14.5");
    CHECK(Decimal::nearest(-0.04, 1).toText() == "0.0");
    CHECK(Decimal::nearest(2.0, 3).toText() == "2.000");
    CHECK(Decimal::nearest(-1234.5678, 2).toText() == "-1234.57");
}

TEST_CASE("a decimal becomes the double nearest to it")
{
    CHECK(typed("0.1").toDouble() == 0.1);
    CHECK(typed("-23.5").toDouble() == -23.5);
    CHECK(typed("999999.999999").toDouble() == 999999.999999);
}

TEST_CASE("sums of the largest numbers that can be typed are still exact")
{
    const Decimal most = typed("999999999999.999999");
    CHECK((most + most).toText() == "1999999999999.999998");
    CHECK((typed("-999999999999.999999") - most).toText() == "-1999999999999.999998");
}

TEST_CASE("a share of a number is exact as long as its places hold it")
{
    CHECK(typed("25").percent(80).toText() == "20.00");
    CHECK(typed("-2.05").percent(50).toText() == "-1.0250");
    CHECK(typed("0.12345").percent(50).toText() == "0.061725");
    CHECK(typed("0.123456").percent(1).toText() == "0.001235");
    CHECK((typed("999999999999") + typed("999999999999")).percent(100)
          == typed("999999999999") + typed("999999999999"));
}

TEST_CASE("a decimal that only a wrong program can ask for stops it")
{
    CHECK(lastWords([] { static_cast<void>(Decimal(1, 7)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal(1, -1)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal(4'000'000'000'001, 0)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal::nearest(1.0, 7)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal::nearest(1e12, 0)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal::nearest(std::numeric_limits<double>::quiet_NaN(), 0)); }));
    CHECK(lastWords([] { static_cast<void>(Decimal(1, 0).percent(101)); }));
    CHECK_FALSE(lastWords([] { static_cast<void>(Decimal(-4'000'000'000'000, 0)); }));
}
