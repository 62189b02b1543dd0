// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/cleanliness_code.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <string>
#include <vector>

using Catch::Contains;
using Catch::WithinRel;
using loopside::Errc;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

CleanlinessCode code(const std::string& text)
{
    return CleanlinessCode::parse(text).value();
}

std::string codeOf(const std::vector<double>& counts, CountBasis basis = CountBasis::PerMl)
{
    return CleanlinessCode::fromCounts(counts, basis).value().toText();
}

} // namespace

TEST_CASE("a count gets the scale number in whose range it is, the upper limit included")
{
    // The table of ISO 4406 as printed in Machinery Lubrication India, Nov-Dec 2019; 0.01 and >28 from memory.
    const auto [perMl, scale] = GENERATE(table<double, std::string>({
        {0.0, "0"},
        {0.01, "0"},
        {0.64, "6"},
        {0.645, "7"},
        {1.29, "7"},
        {80.0, "13"},
        {81.0, "14"},
        {160.0, "14"},
        {161.0, "15"},
        {640.0, "16"},
        {641.0, "17"},
        {1300.0, "17"},
        {1301.0, "18"},
        {2500.0, "18"},
        {2501.0, "19"},
        {2500000.0, "28"},
        {2500001.0, ">28"},
    }));
    CAPTURE(perMl);
    CHECK(scaleNumberOf(perMl).value().toText() == scale);
}

TEST_CASE("the ranges of the scale numbers meet without gap, and both their ends come back to them")
{
    for (int scale = 0; scale <= ScaleNumber::max; ++scale) {
        const CountRange range = countRange(scale).value();
        CAPTURE(scale, range.moreThanPerMl, *range.upToPerMl);
        CHECK(scaleNumberOf(*range.upToPerMl).value().number() == scale);
        CHECK(scaleNumberOf(std::nextafter(range.moreThanPerMl, 1e9)).value().number() == scale);
        if (scale > 0) {
            CHECK(range.moreThanPerMl == *countRange(scale - 1).value().upToPerMl);
            // Each step is "roughly 2" (ISO 4406): 2500 from 1300 is the smallest, 1300 from 640 the largest.
            const double step = *range.upToPerMl / range.moreThanPerMl;
            CHECK((step > 1.9 && step < 2.04));
        }
    }
    CHECK_FALSE(ScaleNumber::aboveTable().countRange()->upToPerMl.has_value());
    CHECK_FALSE(ScaleNumber::tooMany().countRange().has_value());
    CHECK(countRange(29).error().code == Errc::OutOfRange);
    CHECK_THAT(countRange(-1).error().sentence, Contains("0 to 28") && Contains("-1"));
}

TEST_CASE("more particles never get a smaller scale number")
{
    int before = 0;
    for (double perMl = 0.001; perMl < 1e7; perMl *= 1.01) {
        const int number = scaleNumberOf(perMl).value().atLeast().value();
        CAPTURE(perMl);
        CHECK(number >= before);
        before = number;
    }
    CHECK(before == 29);
}

TEST_CASE("a count that is no count is refused")
{
    const double perMl = GENERATE(-1.0, -1e-9, notANumber, infinity);
    CHECK(scaleNumberOf(perMl).error().code == Errc::OutOfRange);
}

TEST_CASE("counts make a code")
{
    // Per 100 mL: a worked example of a counter's distributor. The rest computed from the table by hand.
    CHECK(codeOf({300000, 50000, 700}, CountBasis::Per100Ml) == "19/16/10");
    CHECK(codeOf({161, 81, 21}) == "15/14/12");
    CHECK(codeOf({1301, 80}) == "−/18/13"); // by microscope
    CHECK(codeOf({3e6, 3e6, 0}) == ">28/>28/0");
    CHECK(code("−/18/13").isMicroscope());
    CHECK_FALSE(code("19/16/10").isMicroscope());
}

TEST_CASE("the same counts per mL and per 100 mL have the same code, at the limits too")
{
    for (int scale = 0; scale <= ScaleNumber::max; ++scale) {
        const double limitPerMl = *countRange(scale).value().upToPerMl;
        const double per100Ml = std::round(limitPerMl * 100.0);
        CAPTURE(scale);
        CHECK(codeOf({per100Ml, per100Ml, per100Ml}, CountBasis::Per100Ml)
              == codeOf({limitPerMl, limitPerMl, limitPerMl}));
        const auto oneMore = CleanlinessCode::fromCounts(std::vector<double>(3, per100Ml + 1), CountBasis::Per100Ml);
        CHECK(oneMore->at4().atLeast() == scale + 1);
    }
}

TEST_CASE("few particles counted are marked")
{
    // Fewer than 20 particles, ISO 4406 from memory: 1.0 a mL in 10 mL are 10 particles, 2.0 are 20.
    const std::vector<double> counts = {100.0, 2.0, 1.0};
    CHECK(CleanlinessCode::fromCounts(counts, CountBasis::PerMl, 10.0 * millilitre).value().toText() == "14/8/≥7");
    CHECK(CleanlinessCode::fromCounts(counts, CountBasis::PerMl, 100.0 * millilitre).value().toText() == "14/8/7");
    CHECK(CleanlinessCode::fromCounts(counts, CountBasis::Per100Ml, 1.0 * litre).value().toText() == "7/1/≥0");
    const std::vector<double> particles = {1000.0, 20.0, 19.0};
    const auto marked = CleanlinessCode::fromCounts(counts, CountBasis::PerMl, particles).value();
    CHECK(marked.toText() == "14/8/≥7");
    CHECK(marked.isLowConfidence());
    CHECK(marked.at14().isLowConfidence());
    CHECK_FALSE(marked.at6().isLowConfidence());
    CHECK_FALSE(CleanlinessCode::fromCounts(counts, CountBasis::PerMl).value().isLowConfidence());
}

TEST_CASE("counts that no oil gives are refused with the size named")
{
    const auto [counts, code, sentence] = GENERATE(table<std::vector<double>, Errc, std::string>({
        {{100, 200, 50}, Errc::Conflict, "count at 6 µm, 200, cannot be more than at 4 µm, 100"},
        {{100, 50, 50.5}, Errc::Conflict, "count at 14 µm, 50.5, cannot be more than at 6 µm, 50"},
        {{50, 51}, Errc::Conflict, "count at 15 µm, 51, cannot be more than at 5 µm, 50"},
        {{-1, 0, 0}, Errc::OutOfRange, "count at 4 µm must be 0 or more; given is -1"},
        {{1, notANumber, 0}, Errc::OutOfRange, "count at 6 µm must be 0 or more"},
        {{infinity, 1, 0}, Errc::OutOfRange, "count at 4 µm must be 0 or more"},
        {{1}, Errc::Malformed, "1 are given"},
        {{}, Errc::Malformed, "0 are given"},
        {{4, 3, 2, 1}, Errc::Malformed, "4 are given"},
    }));
    const auto refused = CleanlinessCode::fromCounts(counts, CountBasis::PerMl);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == code);
    CHECK_THAT(refused.error().sentence, Contains(sentence));
}

TEST_CASE("what was counted is checked like the counts")
{
    const std::vector<double> counts = {100, 20, 5};
    const double volumeMl = GENERATE(0.0, -1.0, notANumber);
    const auto none = CleanlinessCode::fromCounts(counts, CountBasis::PerMl, volumeMl * millilitre);
    CHECK_THAT(none.error().sentence, Contains("volume counted must be above 0"));
    const auto refusal = [&](const std::vector<double>& particles) {
        return CleanlinessCode::fromCounts(counts, CountBasis::PerMl, particles).error().sentence;
    };
    CHECK_THAT(refusal({100, 20}), Contains("as many numbers of particles counted as counts, 3; there are 2"));
    CHECK_THAT(refusal({100, 20, 21}), Contains("number of particles counted at 14 µm"));
}

TEST_CASE("a code is read however people write it, and written one way")
{
    const auto [typed, written] = GENERATE(table<std::string, std::string>({
        {"17/15/12", "17/15/12"},
        {" 17 / 15 /12 ", "17/15/12"},
        {"−/18/13", "−/18/13"},
        {"-/18/13", "−/18/13"},
        {"–/18/13", "−/18/13"},
        {"14/12/≥7", "14/12/≥7"},
        {"14/12/>=7", "14/12/≥7"},
        {"14/12/ ≥ 7", "14/12/≥7"},
        {"*/20/16", "*/20/16"},
        {"*/*/*", "*/*/*"},
        {">28/28/27", ">28/28/27"},
        {"> 28/>28/≥0", ">28/>28/≥0"},
        {"9/9/9", "9/9/9"},
        {"17/-/12", "17/−/12"},
    }));
    CAPTURE(typed);
    const auto read = CleanlinessCode::parse(typed);
    REQUIRE(read.has_value());
    CHECK(read->toText() == written);
    CHECK(CleanlinessCode::parse(written).value() == *read);
}

TEST_CASE("every code that falls with size is read back as it was written")
{
    for (int at4 = 0; at4 <= 28; ++at4) {
        for (int at6 = 0; at6 <= at4; ++at6) {
            for (int at14 = 0; at14 <= at6; ++at14) {
                const auto made = CleanlinessCode::of({ScaleNumber::of(at4).value(), ScaleNumber::of(at6).value(),
                                                       ScaleNumber::of(at14, at14 % 2 == 1).value()});
                if (CleanlinessCode::parse(made->toText()).value() != *made) {
                    FAIL_CHECK(made->toText());
                }
            }
        }
    }
}

TEST_CASE("what is not a code is refused with what was typed")
{
    const auto [typed, code] = GENERATE(table<std::string, Errc>({
        {"", Errc::Malformed},
        {"17/15", Errc::Malformed},
        {"17/15/12/9", Errc::Malformed},
        {"17 15 12", Errc::Malformed},
        {"17/15/x", Errc::Malformed},
        {"17/15/", Errc::Malformed},
        {"17/15/12.5", Errc::Malformed},
        {"17/15/-3", Errc::Malformed},
        {"17/15/+3", Errc::Malformed},
        {"29/15/12", Errc::OutOfRange},
        {"17/15/>12", Errc::Malformed},
        {"17/15/≥", Errc::Malformed},
        {"≥*/15/12", Errc::Malformed},
        {"99999999999999999999/15/12", Errc::Malformed},
    }));
    CAPTURE(typed);
    const auto read = CleanlinessCode::parse(typed);
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().code == code);
    CHECK_THAT(read.error().sentence, Contains("\"" + typed + "\""));
}

TEST_CASE("a code that rises with size is refused, whatever stands between")
{
    const std::string typed = GENERATE("15/17/12", "17/12/13", "17/*/18", "17/−/18", "27/>28/3", "−/12/13");
    const auto read = CleanlinessCode::parse(typed);
    REQUIRE_FALSE(read.has_value());
    CHECK(read.error().code == Errc::Conflict);
    CHECK_THAT(read.error().sentence, Contains("above that of a smaller size"));
}

TEST_CASE("a code without any size counted says nothing")
{
    CHECK(CleanlinessCode::parse("-/-/-").error().code == Errc::Unavailable);
}

TEST_CASE("a target is met, or not, only beyond the scatter of one number")
{
    // Common practice: one number between two tests is scatter. Target 17/15/12.
    const auto [measured, verdict] = GENERATE(table<std::string, TargetVerdict>({
        {"15/13/10", TargetVerdict::Better},
        {"16/14/11", TargetVerdict::Met}, // "met, with margin one code"
        {"15/13/11", TargetVerdict::Met},
        {"17/15/12", TargetVerdict::NotProven},
        {"18/16/13", TargetVerdict::NotProven},
        {"15/13/12", TargetVerdict::NotProven},
        {"19/13/10", TargetVerdict::NotMet},
        {"15/13/≥10", TargetVerdict::NotProven},
        {"20/18/≥14", TargetVerdict::NotMet},
        {"*/13/10", TargetVerdict::CannotTell},
        {"−/13/10", TargetVerdict::CannotTell},
        {"*/17/10", TargetVerdict::NotMet}, // whatever the first size is
        {">28/13/10", TargetVerdict::NotMet},
    }));
    CAPTURE(measured);
    CHECK(compareToTarget(code(measured), code("17/15/12")).whole == verdict);
}

TEST_CASE("each size has its own verdict, and none where the target asks nothing")
{
    const auto comparison = compareToTarget(code("15/14/12"), code("−/15/10"));
    CHECK_FALSE(comparison.sizes[0].has_value());
    CHECK(comparison.sizes[1] == TargetVerdict::Met);
    CHECK(comparison.sizes[2] == TargetVerdict::NotMet);
    CHECK(compareToTarget(code("−/13/10"), code("−/15/12")).whole == TargetVerdict::Better);
}

TEST_CASE("a cleaner oil never has a worse verdict")
{
    const auto target = code("14/14/14");
    auto before = TargetVerdict::Better;
    for (int number = 0; number <= 28; ++number) {
        const ScaleNumber scale = ScaleNumber::of(number).value();
        const auto verdict = compareToTarget(CleanlinessCode::of({scale, scale, scale}).value(), target).whole;
        CAPTURE(number);
        CHECK(verdict >= before);
        before = verdict;
    }
    CHECK(before == TargetVerdict::NotMet);
}

TEST_CASE("a change counts only beyond the scatter of one number")
{
    const auto [before, after, change] = GENERATE(table<std::string, std::string, CodeChange>({
        {"20/18/15", "16/14/11", CodeChange::Cleaner},
        {"20/18/15", "18/16/13", CodeChange::Cleaner},
        {"20/18/15", "16/14/14", CodeChange::NotProven}, // a drop of 1 is not proven
        {"20/18/15", "20/18/15", CodeChange::NotProven},
        {"20/18/15", "21/19/16", CodeChange::NotProven},
        {"20/18/15", "18/18/17", CodeChange::Dirtier},
        {"20/18/15", "16/14/≥11", CodeChange::NotProven}, // it may be higher
        {"20/18/≥15", "16/14/11", CodeChange::Cleaner},   // it may have been higher still
        {"20/18/≥11", "20/18/15", CodeChange::NotProven},
        {"20/18/11", "20/18/≥15", CodeChange::Dirtier},
        {"−/18/15", "−/14/11", CodeChange::Cleaner},
        {"20/18/15", "−/14/11", CodeChange::CannotTell},
        {"*/18/15", "16/14/11", CodeChange::CannotTell},
        {">28/18/15", "26/14/11", CodeChange::Cleaner},
    }));
    CAPTURE(before, after);
    CHECK(compareCodes(code(before), code(after)).whole == change);
}

TEST_CASE("turning a change round turns cleaner into dirtier")
{
    for (int was = 0; was <= 28; ++was) {
        for (int is = 0; is <= 28; ++is) {
            const auto both = [](int number) {
                const ScaleNumber scale = ScaleNumber::of(number).value();
                return CleanlinessCode::of({scale, scale, scale}).value();
            };
            const auto there = compareCodes(both(was), both(is)).whole;
            const auto back = compareCodes(both(is), both(was)).whole;
            CHECK((there == CodeChange::Cleaner) == (back == CodeChange::Dirtier));
            CHECK((there == CodeChange::NotProven) == (std::abs(was - is) <= 1));
        }
    }
}

TEST_CASE("the error of a count falls with the root of the particles counted")
{
    // Poisson: 5 particles 45 %, 20 22 %, 100 10 %, 400 5 %.
    const auto [particles, percentText] = GENERATE(
        table<double, double>({{5.0, 44.72136}, {20.0, 22.36068}, {100.0, 10.0}, {400.0, 5.0}}));
    CHECK_THAT(relativeCountingError(particles).value().in(percent), WithinRel(percentText, 1e-6));
    CHECK_FALSE(relativeCountingError(0.0).has_value());
    CHECK_FALSE(relativeCountingError(-3.0).has_value());
    CHECK_FALSE(relativeCountingError(notANumber).has_value());
}
