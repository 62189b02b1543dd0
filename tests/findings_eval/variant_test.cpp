// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "stories_at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace loopside;
using namespace loopside::evaluation;
using namespace loopside::test;

namespace {

constexpr std::uint64_t seeds = 60;

double read(const story::StoryEntry& entry, std::size_t dial)
{
    return readingOf(entry)->gauges.at(dial)->low.toDouble();
}

/// What the amendment at entry `place` says the dials showed.
double amended(const story::Story& story, std::size_t place, std::size_t dial)
{
    const auto& about = std::get<story::AboutEntry>(story.entries.at(place).steps.at(0));
    return std::get<run::Amended>(about.what).gauges.at(dial)->low.toDouble();
}

std::string lineOf(const story::Story& story)
{
    std::string line;
    for (const story::StoryEntry& entry : story.entries) {
        line += entry.at + " " + std::to_string(entry.entered.count());
        if (const auto* reading = readingOf(entry)) {
            for (const auto& dial : reading->gauges) {
                line += " " + (dial ? dial->low.toText() : "-");
            }
            line += reading->oil ? " " + reading->oil->toText() : "";
        }
        line += "\n";
    }
    return line;
}

} // namespace

TEST_CASE("a variant is the same for the same seed and another for another")
{
    const story::Story& story = caseOf("f03_").story;
    CHECK(lineOf(variantOf(story, 7)) == lineOf(variantOf(story, 7)));
    CHECK(lineOf(variantOf(story, 7)) != lineOf(variantOf(story, 8)));
    CHECK(lineOf(variantOf(story, 7)) != lineOf(story));
}

TEST_CASE("noise stays within its bounds and reaches them")
{
    const auto name = GENERATE(as<std::string>{}, "f01_", "f03_", "f24_", "q_time_order", "q_range_near_miss");
    CAPTURE(name);
    const story::Story& story = caseOf(name).story;
    std::set<double> marks;
    double warmest_k = 0.0;
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        const story::Story variant = variantOf(story, seed);
        REQUIRE(variant.entries.size() == story.entries.size());
        CHECK(variant.entries.front().seen == run::RunTime{0});
        for (std::size_t i = 0; i < story.entries.size(); ++i) {
            const story::StoryEntry& before = story.entries[i];
            const story::StoryEntry& after = variant.entries[i];
            CHECK(std::chrono::abs(after.seen - before.seen) <= timeOff);
            CHECK(after.entered >= after.seen);
            CHECK(story::timeFrom(after.at).value() == after.seen);
            if (i > 0) {
                CHECK((before.seen <=> story.entries[i - 1].seen) == (after.seen <=> variant.entries[i - 1].seen));
                CHECK((before.entered <=> story.entries[i - 1].entered)
                      == (after.entered <=> variant.entries[i - 1].entered));
            }
            if (readingOf(before) == nullptr) {
                continue;
            }
            for (std::size_t dial = 0; dial < story.setup.cart.gauges.size(); ++dial) {
                const double off = read(after, dial) - read(before, dial);
                marks.insert(off);
                CHECK(std::abs(off) <= 1.0); // the dials have marks of 1 psi
                CHECK(read(after, dial) >= 0.0);
                CHECK(read(after, dial) <= 100.0); // the end of the dials
            }
            const double warmer_k =
                (readingOf(after)->oil->value() - readingOf(before)->oil->value()).in(units::kelvins);
            warmest_k = std::max(warmest_k, warmer_k);
            CHECK(std::abs(warmer_k) <= oilOff_k + 1e-9);
        }
    }
    CHECK(marks == std::set<double>{-1.0, 0.0, 1.0});
    CHECK(warmest_k > 0.8 * oilOff_k); // of at least 120 uniform draws; all below that once in 10^5 seeds
}

TEST_CASE("what was typed wrong stays typed wrong")
{
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        CAPTURE(seed);
        const story::Story crossed = variantOf(caseOf("f06_").story, seed);
        CHECK(read(crossed.entries[3], 0) == amended(crossed, 5, 1));
        CHECK(read(crossed.entries[3], 1) == amended(crossed, 5, 0));

        const story::Story bar = variantOf(caseOf("f07_").story, seed);
        CHECK(std::abs(read(bar.entries[3], 0) - 1.6) < 0.11); // a mark of the inner scale is 0.1 bar
        CHECK(readingOf(bar.entries[3])->unit == nullptr);

        const story::Story nought = variantOf(caseOf("q_digit_slip").story, seed);
        CHECK(read(nought.entries[3], 2) == 10.0 * amended(nought, 4, 2));

        const StoryCase& exchanged = caseOf("q_digits_exchanged");
        const double typed = read(variantOf(exchanged.story, seed, exchanged.meant).entries[2], 1);
        CHECK((typed == 32.0 || typed == 42.0 || typed == 52.0)); // 23, 24 or 25 turned round
    }
}

TEST_CASE("expectations move with what they are about")
{
    const story::Story& story = caseOf("f03_").story;
    for (std::uint64_t seed = 0; seed < seeds; ++seed) {
        const story::Story variant = variantOf(story, seed);
        for (std::size_t i = 0; i < story.expectations.size(); ++i) {
            const auto& at = story.expectations[i].at;
            for (std::size_t entry = 0; at && entry < story.entries.size(); ++entry) {
                if (story.entries[entry].seen == *at) {
                    CHECK(variant.expectations[i].at == variant.entries[entry].seen);
                }
            }
        }
    }
}
