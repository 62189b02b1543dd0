// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/cleanliness_code.h"

#include "base/require.h"
#include "base/text.h"
#include "embedded/iso4406Table.h"
#include "oil/reference_table.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <vector>

namespace loopside::oil {

namespace {

constexpr double fewParticles = 20.0;
constexpr std::string_view minusSign = "−";
constexpr std::string_view atLeastSign = "≥";

/// The upper limits per mL of the scale numbers, from 0 up.
const std::vector<double>& limitsPerMl()
{
    static const std::vector<double> limits = [] {
        std::vector<double> upTo;
        for (const ReferenceRow& row : referenceRows(iso4406Table(), 3)) {
            require(row.numbers[0] == static_cast<double>(upTo.size())
                        && row.numbers[1] == (upTo.empty() ? 0.0 : upTo.back()),
                    "each row of the table of ISO 4406 begins where the one before ends");
            upTo.push_back(row.numbers[2]);
        }
        require(upTo.size() == ScaleNumber::max + 1, "the table of ISO 4406 goes from 0 to 28");
        return upTo;
    }();
    return limits;
}

CountRange rangeOf(int scale)
{
    const auto place = static_cast<std::size_t>(scale);
    return {scale == 0 ? 0.0 : limitsPerMl()[place - 1],
            scale > ScaleNumber::max ? std::nullopt : std::optional(limitsPerMl()[place])};
}

Done checkScale(int scale)
{
    if (scale < 0 || scale > ScaleNumber::max) {
        return fail(Errc::OutOfRange,
                    "A scale number of ISO 4406 is from 0 to 28, or >28; it is " + std::to_string(scale) + ".");
    }
    return {};
}

/// What `text` has behind `prefix`; nothing if it does not begin so.
std::optional<std::string_view> behind(std::string_view prefix, std::string_view text)
{
    return text.starts_with(prefix) ? std::optional(trimmed(text.substr(prefix.size()))) : std::nullopt;
}

std::string quoted(std::string_view text)
{
    return "\"" + quotable(text) + "\"";
}

Result<int> wholeNumber(std::string_view text)
{
    int number = 0;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool allDigits = !text.empty() && text.size() <= 3 && stop == text.data() + text.size() && text[0] != '-';
    if (error != std::errc{} || !allDigits) {
        return fail(Errc::Malformed,
                    quoted(text)
                        + " is not a scale number of ISO 4406: 0 to 28, >28, * (too many to count) or − (not "
                          "counted).");
    }
    return number;
}

std::vector<std::string_view> partsOf(std::string_view text)
{
    std::vector<std::string_view> parts;
    for (std::size_t slash = text.find('/'); slash != std::string_view::npos; slash = text.find('/')) {
        parts.push_back(trimmed(text.substr(0, slash)));
        text.remove_prefix(slash + 1);
    }
    parts.push_back(trimmed(text));
    return parts;
}

/// The size of place `size`, as it is counted by machine or by microscope.
std::string_view sizeText(std::size_t size, bool microscope)
{
    static constexpr std::array<std::string_view, 3> byMachine = {"4 µm", "6 µm", "14 µm"};
    static constexpr std::array<std::string_view, 3> byMicroscope = {"", "5 µm", "15 µm"};
    return (microscope ? byMicroscope : byMachine).at(size);
}

std::string numberText(double number)
{
    std::string text = fixed(number, 4);
    text.erase(text.find_last_not_of('0') + 1);
    return text.ends_with('.') ? text.substr(0, text.size() - 1) : text;
}

/// Whether `numbers`, the `what` of two or three sizes, can be counts of the same oil.
Done checkCounts(std::span<const double> numbers, std::string_view what)
{
    if (numbers.size() != 2 && numbers.size() != 3) {
        return fail(Errc::Malformed,
                    "A code needs three " + std::string(what) + ", at 4, 6 and 14 µm, or two by microscope, at 5 and "
                        + "15 µm; " + std::to_string(numbers.size()) + " are given.");
    }
    const bool microscope = numbers.size() == 2;
    const std::size_t first = 3 - numbers.size();
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const std::string name = std::string(what) + " at " + std::string(sizeText(first + i, microscope));
        if (!(numbers[i] >= 0.0 && std::isfinite(numbers[i]))) {
            return fail(Errc::OutOfRange,
                        "The " + name + " must be 0 or more; given is " + numberText(numbers[i]) + ".");
        }
        if (i > 0 && numbers[i] > numbers[i - 1]) {
            return fail(Errc::Conflict,
                        "The " + name + ", " + numberText(numbers[i]) + ", cannot be more than at "
                            + std::string(sizeText(first + i - 1, microscope)) + ", " + numberText(numbers[i - 1])
                            + ": particles of the larger size count at the smaller one too.");
        }
    }
    return {};
}

/// The code of checked `counts`; `particles` are as many, or none if they are not known.
Result<CleanlinessCode> codeOf(std::span<const double> counts, CountBasis basis, std::span<const double> particles)
{
    CleanlinessCode::Scales scales = {ScaleNumber::notCounted(), ScaleNumber::notCounted(), ScaleNumber::notCounted()};
    const std::size_t first = scales.size() - counts.size();
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const auto scale = scaleNumberOf(basis == CountBasis::PerMl ? counts[i] : counts[i] / 100.0);
        if (!scale.has_value()) {
            return fail(scale.error());
        }
        const bool few = !particles.empty() && particles[i] < fewParticles && scale->number().has_value();
        scales[first + i] = few ? ScaleNumber::of(*scale->number(), true).value() : *scale;
    }
    return CleanlinessCode::of(scales);
}

/// The verdict on a number `below` the target, negative above it.
TargetVerdict verdictOf(int below, bool lowConfidence)
{
    if (below <= -2) {
        return TargetVerdict::NotMet;
    }
    if (below <= 0 || lowConfidence) {
        return TargetVerdict::NotProven;
    }
    return below == 1 ? TargetVerdict::Met : TargetVerdict::Better;
}

/// A number marked "≥" may be higher: that leaves a fall open where it comes after, and a rise where it comes before.
CodeChange changeOf(const ScaleNumber& before, const ScaleNumber& after)
{
    if (!before.atLeast().has_value() || !after.atLeast().has_value()) {
        return CodeChange::CannotTell;
    }
    const int fall = *before.atLeast() - *after.atLeast();
    if (fall >= 2 && !after.isLowConfidence()) {
        return CodeChange::Cleaner;
    }
    return fall <= -2 && !before.isLowConfidence() ? CodeChange::Dirtier : CodeChange::NotProven;
}

template<class Verdict>
Verdict worstOf(const std::array<std::optional<Verdict>, 3>& sizes)
{
    const auto worst = *std::max_element(sizes.begin(), sizes.end());
    return worst.value_or(Verdict::CannotTell);
}

bool isCounted(const ScaleNumber& scale)
{
    return scale.kind() != ScaleNumber::Kind::NotCounted;
}

} // namespace

Result<ScaleNumber> ScaleNumber::of(int number, bool fewCounted)
{
    return checkScale(number).transform([&] { return ScaleNumber(Kind::Number, number, fewCounted); });
}

Result<ScaleNumber> ScaleNumber::parse(std::string_view text)
{
    const std::string_view place = trimmed(text);
    if (place == "*") {
        return tooMany();
    }
    if (place == minusSign || place == "–" || place == "-") {
        return notCounted();
    }
    if (const auto above = behind(">", place); above == "28") {
        return aboveTable();
    }
    const auto spelled = behind(atLeastSign, place);
    const auto few = spelled.has_value() ? spelled : behind(">=", place);
    return wholeNumber(few.value_or(place)).and_then([&](int number) { return of(number, few.has_value()); });
}

std::optional<int> ScaleNumber::number() const
{
    return kind_ == Kind::Number ? std::optional(number_) : std::nullopt;
}

std::optional<int> ScaleNumber::atLeast() const
{
    return kind_ == Kind::Number || kind_ == Kind::AboveTable ? std::optional(number_) : std::nullopt;
}

std::optional<CountRange> ScaleNumber::countRange() const
{
    return atLeast().has_value() ? std::optional(rangeOf(number_)) : std::nullopt;
}

std::string ScaleNumber::toText() const
{
    switch (kind_) {
    case Kind::AboveTable:
        return ">28";
    case Kind::TooMany:
        return "*";
    case Kind::NotCounted:
        return std::string(minusSign);
    case Kind::Number:
        break;
    }
    return (fewCounted_ ? std::string(atLeastSign) : "") + std::to_string(number_);
}

Result<ScaleNumber> scaleNumberOf(double countPerMl)
{
    if (!(countPerMl >= 0.0 && std::isfinite(countPerMl))) {
        return fail(Errc::OutOfRange, "A count per mL must be 0 or more; given is " + numberText(countPerMl) + ".");
    }
    const auto limit = std::lower_bound(limitsPerMl().begin(), limitsPerMl().end(), countPerMl);
    if (limit == limitsPerMl().end()) {
        return ScaleNumber::aboveTable();
    }
    return ScaleNumber::of(static_cast<int>(limit - limitsPerMl().begin()));
}

Result<CountRange> countRange(int scale)
{
    return checkScale(scale).transform([&] { return rangeOf(scale); });
}

Result<CleanlinessCode> CleanlinessCode::of(const Scales& scales)
{
    const CleanlinessCode code(scales);
    if (std::none_of(scales.begin(), scales.end(), isCounted)) {
        return fail(Errc::Unavailable, "The code " + code.toText() + " has no size counted.");
    }
    int least = ScaleNumber::max + 1;
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const int number = scales.at(i).atLeast().value_or(least);
        if (number > least) {
            return fail(Errc::Conflict,
                        "In the code " + code.toText() + " the number at "
                            + std::string(sizeText(i, code.isMicroscope()))
                            + " is above that of a smaller size; the larger particles are among those counted there.");
        }
        least = number;
    }
    return code;
}

Result<CleanlinessCode> CleanlinessCode::parse(std::string_view text)
{
    const auto parts = partsOf(text);
    if (parts.size() != 3) {
        return fail(Errc::Malformed,
                    quoted(text)
                        + " is not a code of ISO 4406: three numbers with slashes between are needed, such as "
                          "17/15/12, or −/15/12 by microscope.");
    }
    Scales scales = {ScaleNumber::notCounted(), ScaleNumber::notCounted(), ScaleNumber::notCounted()};
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const auto scale = ScaleNumber::parse(parts[i]);
        if (!scale.has_value()) {
            return fail(scale.error().code, "Code " + quoted(text) + ": " + scale.error().sentence);
        }
        scales.at(i) = *scale;
    }
    return of(scales);
}

Result<CleanlinessCode> CleanlinessCode::fromCounts(std::span<const double> counts, CountBasis basis,
                                                    std::optional<units::Volume> counted)
{
    const Done checked = checkCounts(counts, "count");
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    if (!counted.has_value()) {
        return codeOf(counts, basis, {});
    }
    const double countedMl = counted->in(units::millilitre);
    if (!(countedMl > 0.0 && std::isfinite(countedMl))) {
        return fail(Errc::OutOfRange, "The volume counted must be above 0; it is " + numberText(countedMl) + " mL.");
    }
    constexpr double conversionSlack = 1e-9; // 0.2 a mL in 100 mL are 20 particles, whatever the last bit says
    std::vector<double> particles;
    for (const double count : counts) {
        particles.push_back(count * countedMl / (basis == CountBasis::PerMl ? 1.0 : 100.0) * (1.0 + conversionSlack));
    }
    return codeOf(counts, basis, particles);
}

Result<CleanlinessCode> CleanlinessCode::fromCounts(std::span<const double> counts, CountBasis basis,
                                                    std::span<const double> particles)
{
    const Done checked = checkCounts(counts, "count").and_then([&] {
        return checkCounts(particles, "number of particles counted");
    });
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    if (particles.size() != counts.size()) {
        return fail(Errc::Malformed,
                    "There must be as many numbers of particles counted as counts, " + std::to_string(counts.size())
                        + "; there are " + std::to_string(particles.size()) + ".");
    }
    return codeOf(counts, basis, particles);
}

bool CleanlinessCode::isLowConfidence() const
{
    return std::any_of(scales_.begin(), scales_.end(),
                       [](const ScaleNumber& scale) { return scale.isLowConfidence(); });
}

std::string CleanlinessCode::toText() const
{
    return at4().toText() + "/" + at6().toText() + "/" + at14().toText();
}

TargetComparison compareToTarget(const CleanlinessCode& measured, const CleanlinessCode& target)
{
    TargetComparison comparison{};
    for (std::size_t i = 0; i < comparison.sizes.size(); ++i) {
        const ScaleNumber& asked = target.scales().at(i);
        const ScaleNumber& found = measured.scales().at(i);
        if (!isCounted(asked)) {
            continue;
        }
        comparison.sizes.at(i) = found.atLeast().has_value() && asked.atLeast().has_value()
            ? verdictOf(*asked.atLeast() - *found.atLeast(), found.isLowConfidence())
            : TargetVerdict::CannotTell;
    }
    comparison.whole = worstOf(comparison.sizes);
    return comparison;
}

CodeComparison compareCodes(const CleanlinessCode& before, const CleanlinessCode& after)
{
    CodeComparison comparison{};
    for (std::size_t i = 0; i < comparison.sizes.size(); ++i) {
        const ScaleNumber& was = before.scales().at(i);
        const ScaleNumber& is = after.scales().at(i);
        if (isCounted(was) || isCounted(is)) {
            comparison.sizes.at(i) = changeOf(was, is);
        }
    }
    comparison.whole = worstOf(comparison.sizes);
    return comparison;
}

Result<units::Fraction> relativeCountingError(double particles)
{
    if (!(particles >= 1.0 && std::isfinite(particles))) {
        return fail(Errc::OutOfRange,
                    "The error of a count needs at least one particle counted; given is " + numberText(particles)
                        + ".");
    }
    return 1.0 / std::sqrt(particles) * units::one;
}

} // namespace loopside::oil
