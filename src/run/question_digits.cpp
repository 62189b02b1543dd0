// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One gauge is off by a digit: ten times too much or too little, or two neighbouring digits exchanged. The others are
// as they were, and so is this one if the digit is put right.

#include "run/question_rules.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

/// Within which share of the last set the others, and this gauge put right, are as before. Ten times stands out
/// further than two digits exchanged. Our choice.
struct Like
{
    double others;
    double mended;
};
constexpr Like likeShifted{0.3, 0.3};
constexpr Like likeExchanged{0.15, 0.1};

constexpr double farOff = 0.3;     ///< As typed it is off by more than this share.
constexpr double timesError = 3.0; ///< And by more than so many times the error of the step.

Pressure between(Pressure a, Pressure b)
{
    return std::abs((a - b).in(pascal)) * pascal;
}

/// The number with its point one place to the right or left; nothing where no dial has such a number.
std::optional<Decimal> shifted(const Decimal& number, double times)
{
    constexpr int places = 4;
    const double moved = number.toDouble() * times;
    if (std::abs(moved) > 1e6) {
        return std::nullopt;
    }
    for (int digits = 0; digits < places; ++digits) {
        const Decimal shorter = Decimal::nearest(moved, digits);
        if (std::abs(shorter.toDouble() - moved) <= 1e-9 * std::abs(moved)) {
            return shorter;
        }
    }
    return Decimal::nearest(moved, places);
}

struct Meant
{
    Decimal number;
    Like like;
};

/// The numbers that a slip turns into `typed`.
std::vector<Meant> meantBy(const Decimal& typed)
{
    std::vector<Meant> meant;
    for (const double times : {10.0, 0.1}) {
        if (const auto moved = shifted(typed, times)) {
            meant.push_back({*moved, likeShifted});
        }
    }
    const std::string text = typed.toText();
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] < '0' || text[i] > '9') {
            continue;
        }
        if (last && text[*last] != text[i]) {
            std::string other = text;
            std::swap(other[*last], other[i]);
            if (const auto number = Decimal::parse(other)) {
                meant.push_back({*number, likeExchanged});
            }
        }
        last = i;
    }
    return meant;
}

/// A set beside the last good one, gauge by gauge.
class Comparison
{
public:
    explicit Comparison(const SetAsked& set) : seen_{seenIn(set.reading(), set)}
    {
        const double change = changeByOil(*set.good, set.moment, set.run);
        for (auto& seen : seenIn(*set.good->reading, set)) {
            last_.push_back(seen);
            if (seen) {
                last_.back()->value = seen->value * change;
            }
        }
    }

    [[nodiscard]] bool isComparable(std::size_t i) const { return seen_[i] && last_[i]; }

    [[nodiscard]] bool isNear(std::size_t i, Pressure value, double share) const
    {
        return between(value, last_[i]->value) <= stepError(i) + last_[i]->value * share;
    }

    [[nodiscard]] bool isFarOff(std::size_t i) const
    {
        const Pressure off = between(seen_[i]->value, last_[i]->value);
        return off > stepError(i) * timesError && off > last_[i]->value * farOff;
    }

    /// Whether all that can be compared, and at least one, are normal but for gauge `i`.
    [[nodiscard]] bool areOthersNormal(std::size_t i, double share) const
    {
        std::size_t others = 0;
        for (std::size_t k = 0; k < seen_.size(); ++k) {
            if (k == i || !isComparable(k)) {
                continue;
            }
            if (!isNear(k, seen_[k]->value, share)) {
                return false;
            }
            ++others;
        }
        return others > 0;
    }

private:
    [[nodiscard]] Pressure stepError(std::size_t i) const
    {
        return errorOfDifference(seen_[i]->reading, last_[i]->reading);
    }

    std::vector<std::optional<Seen>> seen_;
    std::vector<std::optional<Seen>> last_;
};

/// The set with gauge `i` as it was meant.
ReadingLogged mended(ReadingLogged reading, std::size_t i, const Decimal& meant)
{
    reading.gauges[i]->low = meant;
    return reading;
}

/// Whether `number` is one that people read from `dial`: a whole number of divisions.
bool isOnDial(const Decimal& number, const GaugeRecord& dial)
{
    if (!dial.graduation) {
        return true;
    }
    const double divisions = number.toDouble() / dial.graduation->toDouble();
    return std::abs(divisions - std::round(divisions)) < 1e-6;
}

/// Whether gauge `i` can have shown `meant`: with no more digits than its dial, or the last set, has, and on a division
/// if what was typed lies on one.
bool isReadable(const SetAsked& set, std::size_t i, const Decimal& meant)
{
    const GaugeRecord& dial = set.cart().gauges[i];
    const int places = std::max(dial.graduation ? dial.graduation->places() : 0,
                                set.good->reading->gauges[i]->low.places());
    const bool isInOtherUnit = set.reading().unit != nullptr && set.reading().unit != dial.unit;
    return meant.places() <= places
        && (isInOtherUnit || !isOnDial(set.reading().gauges[i]->low, dial) || isOnDial(meant, dial));
}

/// The first number that a slip turns into what was typed, and that this gauge can have shown.
std::optional<Decimal> meantAt(const SetAsked& set, const Comparison& compared, std::size_t i)
{
    for (const auto& [meant, like] : meantBy(set.reading().gauges[i]->low)) {
        const auto seen = seenIn(mended(set.reading(), i, meant), set)[i];
        if (isReadable(set, i, meant) && compared.isNear(i, seen->value, like.mended)
            && compared.areOthersNormal(i, like.others)) {
            return meant;
        }
    }
    return std::nullopt;
}

} // namespace

std::optional<Question> askDigits(const SetAsked& set)
{
    if (set.good == nullptr || !isUndisturbed(*set.good, set.moment)) {
        return std::nullopt;
    }
    const Comparison compared(set);
    for (std::size_t i = 0; i < set.cart().gauges.size(); ++i) {
        const bool isCandidate = compared.isComparable(i) && !set.reading().gauges[i]->high && compared.isFarOff(i);
        if (!isCandidate) {
            continue;
        }
        if (const auto meant = meantAt(set, compared, i)) {
            const auto shown = shownBy(set.reading(), set.cart(), i);
            Question asked{.id = digitSlip, .of = set.moment.fact, .gauge = static_cast<int>(i) + 1};
            asked.arguments = {{"gauge", std::to_string(i + 1)},
                               {"typed", shown->toText()},
                               {"meant", ExactPressure{*meant, shown->unit}.toText()}};
            asked.proposal = Proposal{mended(set.reading(), i, *meant).gauges, nullptr};
            return asked;
        }
    }
    return std::nullopt;
}

} // namespace loopside::run
