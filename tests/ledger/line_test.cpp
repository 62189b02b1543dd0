// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/line.h"

#include "ledger/recorder.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace loopside;
using namespace loopside::ledger;
using loopside::test::Recorder;

TEST_CASE("an entry comes back from its line bit for bit")
{
    Entry entry = Recorder(1).chainOf(1)[1];

    SECTION("as it is") {}
    SECTION("with bytes that are no text")
    {
        entry.body = std::string("\xFF\x00\n\"", 4);
        entry.kind = "\x80";
        entry.header.observed.how = "\xC3";
    }
    SECTION("with text that JSON escapes")
    {
        entry.body = std::string("{\"text\":\"35 °C\\u0000\"}\n\t\x01", 28);
    }
    SECTION("at the ends of every range")
    {
        const bool high = GENERATE(false, true);
        const auto i64 = high ? std::numeric_limits<std::int64_t>::max() : std::numeric_limits<std::int64_t>::min();
        const auto u64 = high ? std::numeric_limits<std::uint64_t>::max() : 0;
        entry.format = high ? 65535 : 0;
        entry.header.entered = {i64, high ? std::numeric_limits<int>::max() : std::numeric_limits<int>::min(), u64, {}};
        entry.header.observed.agoMs = i64;
        entry.header.clock = u64;
        entry.header.sequence = u64;
        entry.header.run = {};
    }
    const std::string line = lineOf(entry);
    CHECK(line.find('\n') == std::string::npos);
    const auto read = entryFromLine(line);
    INFO((read ? std::string() : read.error().sentence));
    REQUIRE(read);
    CHECK(*read == entry);
}

TEST_CASE("a line that is no entry is refused with its place")
{
    const Entry entry = Recorder(1).chainOf(1)[1];
    const std::string line = lineOf(entry);
    const auto changed = [&](const std::string& from, const std::string& to) {
        std::string text = line;
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    const auto refusal = [](const std::string& text) {
        const auto read = entryFromLine(text);
        REQUIRE_FALSE(read);
        CHECK(read.error().code == Errc::Malformed);
        return read.error().sentence;
    };
    CHECK_THAT(refusal(""), Catch::Contains("line 1, column 1"));
    CHECK_THAT(refusal(changed("\"sequence\":2", "\"sequence\":2.5")), Catch::Contains("sequence"));
    CHECK_THAT(refusal(changed("\"sequence\":2", "\"sequence\":-2")), Catch::Contains("sequence"));
    CHECK_THAT(refusal(changed("\"format\":1", "\"format\":65536")), Catch::Contains("format"));
    CHECK_THAT(refusal(changed("\"kind\":", "\"kinds\":")), Catch::Contains("kind"));
    CHECK_THAT(refusal(changed("\"kind\":\"note-made\"", "\"kind\":\"x\",\"kind_hex\":\"00\"")),
               Catch::Contains("kind_hex"));
    CHECK_THAT(refusal(changed("\"hash\":\"", "\"hash\":\"0")), Catch::Contains("64 hexadecimal digits"));
    CHECK_THAT(refusal(changed("{", "{\"more\":1,")), Catch::Contains("more"));
    CHECK_FALSE(entryFromLine(line.substr(0, line.size() / 2)));
}

TEST_CASE("the title of an export comes back, and one of a newer version is refused")
{
    const ExportTitle title{7, {{Recorder::idOf(0xC0, 1), 3, 5}, {Recorder::idOf(0xC0, 2), 0, 9}}};
    CHECK(titleFromLine(lineOf(title)).value() == title);
    CHECK(titleFromLine(R"({"loopside_export":2,"entries":0,"missing":[]})").error().code == Errc::Incompatible);
    CHECK(titleFromLine(R"({"entries":0,"missing":[]})").error().code == Errc::Malformed);
    CHECK(
        titleFromLine(
            R"({"loopside_export":1,"entries":1,"missing":[{"chain":"00000000-0000-4000-8000-0000000000c1","after":3,"before":4}]})")
            .error()
            .code
        == Errc::Malformed);
}
