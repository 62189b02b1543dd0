// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/particle_class.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/as4059Table.h"
#include "embedded/iso4402Table.h"
#include "embedded/nas1638Table.h"
#include "oil/reference_table.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>
#include <vector>

namespace loopside::oil {

namespace {

constexpr std::array<std::string_view, 5> bandTexts = {"5 to 15 µm", "15 to 25 µm", "25 to 50 µm", "50 to 100 µm",
                                                       "over 100 µm"};
constexpr std::array<std::string_view, 6> sizeTexts = {"A (4 µm)",  "B (6 µm)",  "C (14 µm)",
                                                       "D (21 µm)", "E (38 µm)", "F (70 µm)"};

struct ClassLimits
{
    std::vector<ReferenceRow> rows; ///< Best class first, its limits behind its name.
    int bestRank;
};

ClassLimits checkedLimits(std::vector<ReferenceRow> rows, int bestRank)
{
    require(static_cast<int>(rows.size()) == ParticleClass::aboveTable - bestRank, "a table of classes ends at 12");
    for (std::size_t i = 0; i < rows.size(); ++i) {
        require(rows[i].name == ParticleClass(bestRank + static_cast<int>(i)).toText(),
                "the classes of a table stand in their order");
    }
    return {std::move(rows), bestRank};
}

const ClassLimits& nasLimits()
{
    static const ClassLimits limits = checkedLimits(referenceRows(nas1638Table(), 6), -1);
    return limits;
}

const ClassLimits& as4059Limits()
{
    static const ClassLimits limits = checkedLimits(referenceRows(as4059Table(), 7), -2);
    return limits;
}

/// The best class whose limit in `column` is not exceeded.
ParticleClass classOf(double count, const ClassLimits& limits, std::size_t column)
{
    const auto within = std::find_if(limits.rows.begin(), limits.rows.end(),
                                     [&](const ReferenceRow& row) { return count <= row.numbers[column + 1]; });
    return ParticleClass(limits.bestRank + static_cast<int>(within - limits.rows.begin()));
}

Done checkCount(double count, std::string_view where)
{
    if (!(count >= 0.0 && std::isfinite(count))) {
        return fail(Errc::OutOfRange,
                    "The count per 100 mL at " + std::string(where) + " must be 0 or more; it is " + fixed(count, 1)
                        + ".");
    }
    return {};
}

Done checkPlaces(std::size_t given, std::size_t needed, std::string_view what)
{
    if (given != needed) {
        return fail(Errc::Malformed,
                    std::string(what) + " needs " + std::to_string(needed) + " counts; " + std::to_string(given)
                        + " are given.");
    }
    return {};
}

/// Whether every count is one, and none is above that of a smaller size.
Done checkCumulative(std::span<const std::optional<double>> counts)
{
    std::optional<double> smaller;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        if (!counts[i].has_value()) {
            continue;
        }
        const Done checked = checkCount(*counts[i], sizeTexts.at(i));
        if (!checked.has_value()) {
            return fail(checked.error());
        }
        if (smaller.has_value() && *counts[i] > *smaller) {
            return fail(Errc::Conflict,
                        "The count at size " + std::string(sizeTexts.at(i)) + ", " + fixed(*counts[i], 1)
                            + ", cannot be more than that of a smaller size, " + fixed(*smaller, 1) + ".");
        }
        smaller = counts[i];
    }
    if (!smaller.has_value()) {
        return fail(Errc::Unavailable, "No size is counted, so that there is no class of AS4059.");
    }
    return {};
}

} // namespace

ParticleClass::ParticleClass(int rank) : rank_{rank}
{
    require(rank >= -2 && rank <= aboveTable, "a particle class is from 000 to >12");
}

std::string ParticleClass::toText() const
{
    if (rank_ == aboveTable) {
        return ">12";
    }
    return rank_ < 0 ? std::string(static_cast<std::size_t>(1 - rank_), '0') : std::to_string(rank_);
}

Result<Nas1638> nas1638(std::span<const double> bandsPer100Ml)
{
    const Done enough = checkPlaces(bandsPer100Ml.size(), bandTexts.size(), "NAS 1638");
    if (!enough.has_value()) {
        return fail(enough.error());
    }
    const ParticleClass best(nasLimits().bestRank);
    Nas1638 classes{{best, best, best, best, best}, best};
    for (std::size_t i = 0; i < bandTexts.size(); ++i) {
        const Done checked = checkCount(bandsPer100Ml[i], bandTexts.at(i));
        if (!checked.has_value()) {
            return fail(checked.error());
        }
        classes.bands.at(i) = classOf(bandsPer100Ml[i], nasLimits(), i);
        classes.whole = std::max(classes.whole, classes.bands.at(i));
    }
    return classes;
}

std::string As4059::toText() const
{
    std::string text;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        if (sizes.at(i).has_value()) {
            text += (text.empty() ? "" : "/") + sizes.at(i)->toText() + sizeTexts.at(i).front();
        }
    }
    return text;
}

Result<As4059> as4059(std::span<const std::optional<double>> countsPer100Ml)
{
    const Done checked = checkPlaces(countsPer100Ml.size(), sizeTexts.size(), "AS4059").and_then([&] {
        return checkCumulative(countsPer100Ml);
    });
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    As4059 classes{{}, ParticleClass(as4059Limits().bestRank)};
    for (std::size_t i = 0; i < sizeTexts.size(); ++i) {
        if (countsPer100Ml[i].has_value()) {
            classes.sizes.at(i) = classOf(*countsPer100Ml[i], as4059Limits(), i);
            classes.whole = std::max(classes.whole, *classes.sizes.at(i));
        }
    }
    return classes;
}

std::span<const SizePair> sizePairs()
{
    static const std::vector<SizePair> pairs = [] {
        std::vector<SizePair> read;
        for (const ReferenceRow& row : referenceRows(iso4402Table(), 2)) {
            read.push_back({row.numbers[0], row.numbers[1]});
        }
        return read;
    }();
    return pairs;
}

} // namespace loopside::oil
