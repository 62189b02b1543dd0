// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/json.h"

#include "base/id.h"

#include <catch2/catch.hpp>

#include <string>

using namespace loopside;
using namespace loopside::ledger;

namespace {

std::string refusalOf(std::string_view text, const JsonLimits& limits = {})
{
    const auto value = parseJson(text, limits);
    if (value) {
        return "";
    }
    CHECK(value.error().code == Errc::Malformed);
    return value.error().sentence;
}

std::string nested(std::size_t levels)
{
    return std::string(levels, '[') + std::string(levels, ']');
}

/// Text that is the same for the same seed.
std::string noise(std::size_t size, std::uint64_t seed, unsigned char least, unsigned char most)
{
    SeededRandom random(seed);
    std::string text(size, '\0');
    for (char& sign : text) {
        sign = static_cast<char>(least + random.next() % (most - least + 1U));
    }
    return text;
}

} // namespace

TEST_CASE("numbers keep the digits they were written with")
{
    const auto text = GENERATE(as<std::string>{}, "38.0", "38", "-0.50", "0.1", "123456789012.123456", "1e3", "-7");
    const auto value = parseJson("[" + text + "]");
    REQUIRE(value.has_value());
    CHECK(value->items.at(0).text == text);
    CHECK(toJson(*value) == "[" + text + "]");
}

TEST_CASE("a value is written as it was read, without blanks")
{
    const std::string text = R"({"a":[1,2.50,null,true,false],"b":{"c":"x \"y\" \\ ü\n"},"":[]})";
    const auto value = parseJson(text);
    REQUIRE(value.has_value());
    CHECK(toJson(*value) == text);
}

TEST_CASE("a key that stands twice in one object is refused, in two objects it is not")
{
    CHECK_THAT(refusalOf(R"({"a":1,"b":{"a":2},"a":3})"), Catch::Contains("\"a\" stands twice"));
    CHECK_THAT(refusalOf(R"({"a":{"x":1,"x":2}})"), Catch::StartsWith("a: the key \"x\" stands twice"));
    CHECK_THAT(refusalOf(R"({"l":[0,{"m":[{},{"x":1,"x":2}]}]})"), Catch::StartsWith("l[1].m[1]: the key"));
    CHECK(refusalOf(R"([{"a":1},{"a":2,"b":{"a":3}}])") == "");
}

TEST_CASE("nesting ends at the limit")
{
    CHECK(refusalOf(nested(24)) == "");
    CHECK_THAT(refusalOf(nested(25)), Catch::Contains("deeper than 24 levels"));
    CHECK_THAT(refusalOf(nested(5'000'000)), Catch::Contains("deeper than 24 levels"));
    CHECK(refusalOf(nested(3), {.depth = 3}) == "");
    CHECK_THAT(refusalOf(nested(4), {.depth = 3}), Catch::Contains("deeper than 3 levels"));
}

TEST_CASE("size ends at the limit")
{
    CHECK(refusalOf("[1]", {.bytes = 3}) == "");
    CHECK_THAT(refusalOf("[12]", {.bytes = 3}), Catch::Contains("larger than"));
    CHECK_THAT(refusalOf(std::string((16U << 20U) + 1, ' ')), Catch::Contains("larger than 16 MB"));
}

TEST_CASE("bytes that are not UTF-8 are refused")
{
    const auto text = GENERATE(as<std::string>{}, "[\n\"\xff\"]", "[\n\"\xc3\"]", "[\n\"\xc0\xaf\"]",
                               "[\n\"\xed\xa0\x80\"]");
    CHECK_THAT(refusalOf(text), Catch::Equals("line 2: this is not text in UTF-8"));
}

TEST_CASE("what is not JSON is refused with line and column")
{
    CHECK_THAT(refusalOf("{\n  \"a\": 1,\n  oops\n}"), Catch::StartsWith("line 3, column 3: "));
    CHECK_THAT(refusalOf("[1,]"), Catch::StartsWith("line 1, column 4: "));
    CHECK_THAT(refusalOf("[1] 2"), Catch::StartsWith("line 1, column 5: "));
    CHECK_THAT(refusalOf("[01]"), Catch::StartsWith("line 1, column 3: "));
    CHECK_THAT(refusalOf("['a']"), Catch::StartsWith("line 1, column 2: "));
    CHECK_THAT(refusalOf("[1e400]"), Catch::StartsWith("line 1, column 6: ")); // more than any number here can be
    CHECK_THAT(refusalOf("NaN"), Catch::StartsWith("line 1, column 1: "));
}

TEST_CASE("a text that was cut off says so, with the place where it ends")
{
    CHECK(refusalOf("{\n  \"a\": [1, 2") == "line 2, column 12: the text ends too early; it may be cut off");
    CHECK_THAT(refusalOf("{\"a\""), Catch::Contains("line 1, column 4: the text ends too early"));
    CHECK_THAT(refusalOf("{\"a\": \"b"), Catch::Contains("the text ends too early"));
    CHECK_THAT(refusalOf(""), Catch::Contains("the text ends too early"));
    CHECK_THAT(refusalOf("{\"a\": tru"), Catch::Contains("the text ends too early"));
}

TEST_CASE("ten megabytes of noise are refused")
{
    constexpr std::size_t size = 10'000'000;
    CHECK(refusalOf(noise(size, 1, 0, 255)) != "");
    CHECK(refusalOf(noise(size, 2, 32, 126)) != "");
    CHECK_THAT(refusalOf("[\"" + noise(size, 3, 'a', 'z')), Catch::Contains("the text ends too early"));
    CHECK(refusalOf("[\"" + noise(size, 4, 'a', 'z') + "\"]") == "");
}

TEST_CASE("an object of very many keys is read in reasonable time")
{
    std::string text = "{";
    for (int i = 0; i < 500'000; ++i) { // comparing each with each would take minutes
        text += "\"k" + std::to_string(i) + "\":0,";
    }
    const auto value = parseJson(text + "\"end\":0}");
    REQUIRE(value.has_value());
    CHECK(value->members.size() == 500'001);
}

TEST_CASE("a reader asks for a kind and refuses another with its place")
{
    const auto placeOf = [](std::string_view text, auto ask) {
        const auto read = readJson(text, [&](const JsonReader& object) {
            ask(object);
            return 0;
        });
        return read ? std::string() : read.error().sentence;
    };
    const std::string text = R"({"a":{"b":[1,"x",null,3000000000]}})";
    const auto item = [](std::size_t i) {
        return [i](const JsonReader& o) { return o.at("a").at("b").items().at(i); };
    };
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(0)(o).text(); })
          == "a.b[0]: a text in quotes is expected here");
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(1)(o).decimal(); }) == "a.b[1]: \"x\" is not a number");
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(1)(o).real(); }) == "a.b[1]: a number is expected here");
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(2)(o).real(); }) == "a.b[2]: a number is expected here");
    CHECK_THAT(placeOf(text, [&](const JsonReader& o) { return item(3)(o).integer(0, 9); }),
               Catch::StartsWith("a.b[3]: a whole number from 0 to 9"));
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(0)(o).boolean(); })
          == "a.b[0]: true or false is expected here");
    CHECK(placeOf(text, [](const JsonReader& o) { return o.at("c"); }) == "\"c\" is missing");
    CHECK(placeOf(text, [](const JsonReader& o) { return o.at("a").items(); }) == "a: a list in [ ] is expected here");
    CHECK(placeOf(text, [&](const JsonReader& o) { return item(0)(o).find("x"); })
          == "a.b[0]: an object in { } is expected here");
    CHECK(placeOf(text, [](const JsonReader& o) { o.onlyKeys({"b", "c"}); })
          == "\"a\" is not a field here; known are b, c");
}
