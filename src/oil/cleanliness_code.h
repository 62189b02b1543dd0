// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How dirty an oil is: the three scale numbers of ISO 4406, such as 17/15/12, for the particles per mL that are at
// least 4, 6 and 14 µm(c) in size.
//
// A scale number stands for a range of counts, each about twice the one below: "more than … up to and including …". It
// is looked up in a table and never computed from a logarithm, which is one off just above most limits, because the
// limits are rounded (80 and 160, but then 320, 640, 1300).
//
//   17    the number                           *   too many to count
//   >28   more than the table holds            −   not counted (also written with a hyphen)
//   ≥7    few particles were counted, so the number may well be higher (also written >=7)
//
// A microscope counts at 5 and 15 µm (largest dimension) and not at 4; its code is written −/18/13. The sizes of 6 and
// 14 µm(c) were chosen to match these, so that the last two numbers of both kinds are compared as alike.
// Source: ISO 4406:2021 and :1999, as reported in a chart (numbers 1 to 28), clauses and a catalogue abstract; number
// 0,
//   ">28", "*" and the rule of fewer than 20 particles from memory.
// Validity: counts of a calibrated counter (ISO 11171), or by microscope (ISO 4407). Counters mostly report per 100 mL.
// Uncertainty: N particles counted have a standard error of 100/√N % (Poisson). Sampling, settling and the counter add
//   to it: one scale number between two tests of the same oil is within the scatter (common practice).

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace loopside::oil {

/// Particles per mL: more than the one, up to and including the other.
struct CountRange
{
    double moreThanPerMl;            ///< 0 for scale number 0, which also stands for no particle at all.
    std::optional<double> upToPerMl; ///< None above the table.
};

/// One place of a code: what is said of the particles of one size.
class ScaleNumber
{
public:
    static constexpr int max = 28;

    enum class Kind
    {
        Number,     ///< 0 to 28.
        AboveTable, ///< ">28".
        TooMany,    ///< "*".
        NotCounted, ///< "−".
    };

    /// `number` from 0 to 28, OutOfRange otherwise; `fewCounted` is the mark "≥".
    [[nodiscard]] static Result<ScaleNumber> of(int number, bool fewCounted = false);
    [[nodiscard]] static constexpr ScaleNumber aboveTable() { return {Kind::AboveTable, max + 1, false}; }
    [[nodiscard]] static constexpr ScaleNumber tooMany() { return {Kind::TooMany, 0, false}; }
    [[nodiscard]] static constexpr ScaleNumber notCounted() { return {Kind::NotCounted, 0, false}; }

    /// Reads one place of a code as in the table above; Malformed or OutOfRange otherwise.
    [[nodiscard]] static Result<ScaleNumber> parse(std::string_view text);

    [[nodiscard]] Kind kind() const { return kind_; }
    [[nodiscard]] std::optional<int> number() const; ///< 0 to 28; none for every other kind.

    /// The number, or 29 for ">28", the least that it can be; none for "*" and "−".
    [[nodiscard]] std::optional<int> atLeast() const;

    /// Whether fewer than 20 particles were counted, so that the true number may well be higher.
    [[nodiscard]] bool isLowConfidence() const { return fewCounted_; }

    /// The counts that the number stands for, whether few were counted or not; none for "*" and "−".
    [[nodiscard]] std::optional<CountRange> countRange() const;

    [[nodiscard]] std::string toText() const;

    friend bool operator==(const ScaleNumber&, const ScaleNumber&) = default;

private:
    constexpr ScaleNumber(Kind kind, int number, bool fewCounted)
        : kind_{kind}, number_{number}, fewCounted_{fewCounted}
    {
    }

    Kind kind_;
    int number_;
    bool fewCounted_;
};

/// The scale number of a count, ">28" above 2 500 000 per mL. OutOfRange for a negative count or one that is no number.
[[nodiscard]] Result<ScaleNumber> scaleNumberOf(double countPerMl);

/// The counts that scale number `scale` stands for. OutOfRange outside 0 to 28.
[[nodiscard]] Result<CountRange> countRange(int scale);

/// The volume to which counts refer.
enum class CountBasis
{
    PerMl,
    Per100Ml,
};

/// A code of ISO 4406.
class CleanlinessCode
{
public:
    using Scales = std::array<ScaleNumber, 3>;

    /// A code of these places, for 4, 6 and 14 µm(c).
    /// Conflict if a number is above that of a smaller size, for the larger particles are among those counted there;
    /// Unavailable if no size is counted.
    [[nodiscard]] static Result<CleanlinessCode> of(const Scales& scales);

    /// Reads `17/15/12`, `−/18/13`, `14/12/≥7`, `>28/20/*`; blanks around the slashes do no harm.
    /// Malformed, OutOfRange or as of `of`, in a sentence that quotes the text.
    [[nodiscard]] static Result<CleanlinessCode> parse(std::string_view text);

    /// The code of three counts, at 4, 6 and 14 µm(c), or of two by microscope, at 5 and 15 µm.
    ///
    /// With the volume that was counted, sizes of which fewer than 20 particles were seen get the mark "≥"; a
    /// concentration alone cannot tell. OutOfRange for a negative count or one that is no number, and for a volume that
    /// is not above 0; Conflict if a count rises with size; Malformed if there are not two or three.
    [[nodiscard]] static Result<CleanlinessCode> fromCounts(std::span<const double> counts, CountBasis basis,
                                                            std::optional<units::Volume> counted = std::nullopt);

    /// The same with the numbers of particles that were seen, as many as there are counts; they too are checked.
    [[nodiscard]] static Result<CleanlinessCode> fromCounts(std::span<const double> counts, CountBasis basis,
                                                            std::span<const double> particles);

    [[nodiscard]] const Scales& scales() const { return scales_; } ///< At 4, 6 and 14 µm(c).
    [[nodiscard]] const ScaleNumber& at4() const { return scales_[0]; }
    [[nodiscard]] const ScaleNumber& at6() const { return scales_[1]; }
    [[nodiscard]] const ScaleNumber& at14() const { return scales_[2]; }

    /// Whether 4 µm(c) is not counted, as by microscope.
    [[nodiscard]] bool isMicroscope() const { return at4().kind() == ScaleNumber::Kind::NotCounted; }

    [[nodiscard]] bool isLowConfidence() const; ///< Whether any size is.

    /// Such as "17/15/12", "−/18/13", "14/12/≥7". What `parse` reads back.
    [[nodiscard]] std::string toText() const;

    friend bool operator==(const CleanlinessCode&, const CleanlinessCode&) = default;

private:
    explicit CleanlinessCode(const Scales& scales) : scales_{scales} {}

    Scales scales_;
};

/// Whether a target is met, from best to worst.
///
/// The rule is ours, built on common practice that one scale number is scatter: a verdict stands only if it would stand
/// with the measured number one off against it.
enum class TargetVerdict
{
    Better,     ///< At least two below the target: one less would be met too.
    Met,        ///< One below: at the target even if the test is one too low.
    NotProven,  ///< At the target or one above; or below it, but counted from few particles ("≥").
    CannotTell, ///< Too many to count, not counted though the target asks for it, or the target is no number.
    NotMet,     ///< At least two above; above even if the test is one too high.
};

/// The verdict for each size and for all.
struct TargetComparison
{
    std::array<std::optional<TargetVerdict>, 3> sizes; ///< None where the target has "−": nothing is asked.
    TargetVerdict whole;                               ///< The worst of them.
};

/// A measured code held against a target. A mark "≥" in the target changes nothing; ">28" counts as 29.
[[nodiscard]] TargetComparison compareToTarget(const CleanlinessCode& measured, const CleanlinessCode& target);

/// What became of an oil, from best to worst. The rule is that of `TargetVerdict`.
enum class CodeChange
{
    Cleaner,    ///< Down by two numbers or more.
    NotProven,  ///< Alike, or one number up or down; or two and more where the mark "≥" leaves the change open.
    CannotTell, ///< Too many to count, or counted in one of the two codes only.
    Dirtier,    ///< Up by two numbers or more.
};

/// The change for each size and for all.
struct CodeComparison
{
    std::array<std::optional<CodeChange>, 3> sizes; ///< None where neither code has the size counted.
    CodeChange whole;                               ///< The worst of them; CannotTell if there is none.
};

/// Two codes of one oil, one after the other. ">28" counts as 29, so that the change is at least what is told.
[[nodiscard]] CodeComparison compareCodes(const CleanlinessCode& before, const CleanlinessCode& after);

/// The relative standard error of a count of so many particles, 1/√N. OutOfRange unless at least one was counted.
///
/// Source: Poisson statistics of independent particles. Not included: sampling, settling, the counter.
[[nodiscard]] Result<units::Fraction> relativeCountingError(double particles);

} // namespace loopside::oil
