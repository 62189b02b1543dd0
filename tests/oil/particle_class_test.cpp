// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/particle_class.h"

#include <catch2/catch.hpp>

#include <limits>
#include <string>
#include <vector>

using Catch::Contains;
using Catch::WithinAbs;
using loopside::Errc;
using namespace loopside::oil;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
using Counts = std::vector<std::optional<double>>;

std::string nasClass(const std::vector<double>& bands)
{
    return nas1638(bands).value().whole.toText();
}

/// The highest counts of each band that are still of the class with `rank`, found by asking.
std::vector<double> limitsOf(int rank)
{
    std::vector<double> limits(5);
    for (std::size_t band = 0; band < limits.size(); ++band) {
        double step = 1048576.0;
        while (step >= 1.0) {
            std::vector<double> counts(5, 0.0);
            counts[band] = limits[band] + step;
            if (nas1638(counts).value().whole.rank() <= rank) {
                limits[band] += step;
            } else {
                step /= 2.0;
            }
        }
    }
    return limits;
}

} // namespace

TEST_CASE("the worst band decides the class of NAS 1638")
{
    // The limits of class 6 in a NAS 1638 data sheet: 16000, 2850, 506, 90, 16.
    CHECK(nasClass({16000, 2850, 506, 90, 16}) == "6");
    CHECK(nasClass({16001, 2850, 506, 90, 16}) == "7");
    CHECK(nasClass({0, 0, 0, 0, 17}) == "7");
    CHECK(nasClass({125, 22, 4, 1, 0}) == "00");
    CHECK(nasClass({126, 22, 4, 1, 0}) == "0");
    CHECK(nasClass({0, 0, 0, 0, 0}) == "00");
    CHECK(nasClass({1024000, 182400, 32400, 5760, 1024}) == "12");
    CHECK(nasClass({1024001, 0, 0, 0, 0}) == ">12");
    const auto classes = nas1638(std::vector<double>{16000, 100, 0, 0, 0}).value();
    CHECK(classes.bands[0].toText() == "6");
    CHECK(classes.bands[1].toText() == "2");
    CHECK(classes.bands[4].toText() == "00");
}

TEST_CASE("the limits of AS4059 are the sums of the bands of NAS 1638 from that size up")
{
    // Found in both tables as published; it shows a misprint in either.
    for (int rank = -1; rank <= 12; ++rank) {
        const std::vector<double> bands = limitsOf(rank);
        double sum = 0.0;
        for (std::size_t band = bands.size(); band-- > 0;) {
            sum += bands[band];
            CAPTURE(rank, band, sum);
            Counts counts(6);
            counts[band + 1] = sum;
            CHECK(as4059(counts).value().whole.rank() <= rank);
            counts[band + 1] = sum + 1.0;
            CHECK(as4059(counts).value().whole.rank() > rank);
        }
    }
}

TEST_CASE("AS4059 tells a class for each size that is counted")
{
    // Class 6 of AS4059 table 2: 50000, 19462, 3462, 612, 106, 16.
    const auto classes = as4059(Counts{std::nullopt, 19462, 3462, 613, 106, 16}).value();
    CHECK(classes.toText() == "6B/6C/7D/6E/6F");
    CHECK(classes.whole.toText() == "7");
    CHECK_FALSE(classes.sizes[0].has_value());
    CHECK(as4059(Counts{0, 0, 0, 0, 0, 0}).value().toText() == "000A/000B/000C/000D/000E/000F");
    CHECK(as4059(Counts{3200001, 0, 0, 0, 0, 0}).value().whole.toText() == ">12");
}

TEST_CASE("more particles never make a better class")
{
    int before = -2;
    for (double count = 0.5; count < 4e6; count *= 1.05) {
        const int rank = as4059(Counts{count, {}, {}, {}, {}, {}}).value().whole.rank();
        CAPTURE(count);
        CHECK(rank >= before);
        before = rank;
    }
    CHECK(before == ParticleClass::aboveTable);
}

TEST_CASE("counts that make no class are refused with the fault named")
{
    CHECK(nas1638(std::vector<double>{1, 2, 3}).error().code == Errc::Malformed);
    CHECK_THAT(nas1638(std::vector<double>{1, 2, -3, 0, 0}).error().sentence, Contains("25 to 50 µm"));
    CHECK_THAT(nas1638(std::vector<double>{notANumber, 2, 3, 0, 0}).error().sentence, Contains("5 to 15 µm"));
    CHECK(as4059(Counts{1, 1}).error().code == Errc::Malformed);
    CHECK(as4059(Counts(6)).error().code == Errc::Unavailable);
    CHECK_THAT(as4059(Counts{1, 1, notANumber, 0, 0, 0}).error().sentence, Contains("C (14 µm)"));
    const auto rising = as4059(Counts{100, std::nullopt, 101, 0, 0, 0});
    CHECK(rising.error().code == Errc::Conflict);
    CHECK_THAT(rising.error().sentence, Contains("C (14 µm)") && Contains("101.0"));
}

TEST_CASE("the size pairs rise together and round to the pairs that were read")
{
    // The rounded pairs of the AS4059 chart in Machinery Lubrication India, Nov-Dec 2019.
    const auto pairs = sizePairs();
    REQUIRE(pairs.size() == 40);
    for (std::size_t i = 1; i < pairs.size(); ++i) {
        CHECK(pairs[i].acftdUm == pairs[i - 1].acftdUm + 1.0);
        CHECK(pairs[i].iso11171Umc > pairs[i - 1].iso11171Umc);
    }
    for (const auto& [acftd, umc] : std::vector<std::pair<std::size_t, double>>{{1, 4}, {5, 6}, {15, 14}, {25, 21}}) {
        CHECK_THAT(pairs[acftd - 1].iso11171Umc, WithinAbs(umc, 0.5));
    }
}
