// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What one set shows beside the sets before it: every quotient that a pattern may ask for, worked out once.
//
// Two references, both of this run. The base is the first good set since the start; a stage's base is the first since
// its elements were changed. The last is the newest set in which nothing was found that spoils a reference: a torn
// stage is held against how it was before it tore for as long as it stands. Quotients are now ÷ what oil and flow make
// of the reference; 1 is "as before".

#pragma once

#include "run/witness.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

/// What was seen or heard near a set.
struct SignsNear
{
    bool foam = false;
    bool haze = false;
    bool whine = false;
    bool clicking = false;
    bool leak = false;
};

/// The last changeover of a stage.
struct Renewal
{
    RunTime at{0};
    int elements = 0;                      ///< How many were said to be new.
    std::optional<Uncertain> oldLoading{}; ///< Of the stage before.
    const Sight* before = nullptr;         ///< The last set with the old elements.
};

struct StageEvidence
{
    const Sight* base = nullptr;       ///< Nothing before the first good set.
    std::optional<Measured> last = {}; ///< Its ΔP at the last reference, if it has the same elements still.
    std::optional<Uncertain> sinceBase = {};
    std::optional<Uncertain> sinceLast = {};
    std::optional<Uncertain> sinceOneBefore = {}; ///< Since the reference before the last: one of them may be misread.
    std::optional<Uncertain> aloneSinceLast = {}; ///< ÷ how all other losses moved; oil and flow fall out.
    std::optional<Uncertain> aloneSinceBase = {};
    std::optional<Renewal> renewal = {};
    std::optional<Uncertain> ofOld =
        {}; ///< First seen after a changeover ÷ the last of the old; oil and flow taken out.
    std::optional<Uncertain> fresh = {}; ///< Loading when its elements were first seen, mean of the first minutes,
                                         ///< ÷ what was told of them; 1 is as expected.
};

/// How long a needle has stood still.
struct Standstill
{
    int sets = 1; ///< That show the same, this one counted.
    const Sight* since = nullptr;
};

struct Evidence
{
    const RunState& run;
    const Sight& now;
    std::span<const Sight> sights; ///< All good sets up to now, the last is `now`.
    const Sight* base = nullptr;
    const Sight* last = nullptr;
    Uncertain oilSinceBase = {1.0, 0.0}; ///< How oil and stated flow alone move a laminar loss.
    Uncertain oilSinceLast = {1.0, 0.0};
    std::optional<Uncertain> headSinceBase = {};
    std::optional<Uncertain> headSinceLast = {};
    std::optional<Uncertain> headSinceOneBefore = {};
    std::optional<Uncertain> filtersSinceLast = {};
    std::optional<Uncertain> totalSinceLast = {};
    std::optional<Uncertain> totalSinceBase = {};
    std::optional<Uncertain> headAloneSinceLast = {}; ///< ÷ how the filters moved.
    std::vector<StageEvidence> stages = {};
    std::vector<Standstill> needles = {}; ///< One per gauge.
    const Moment* pumpOff = nullptr;      ///< The last set with the pump off.
    SignsNear signs = {};
    const Sight* coldest = nullptr; ///< The set with the thickest oil of this run.

    [[nodiscard]] std::size_t stageCount() const { return stages.size(); }
};

/// Walks the good sets of one run and keeps their references.
class Gatherer
{
public:
    /// `sets` is the most that will be seen: earlier sights are pointed at.
    Gatherer(const RunState& run, const std::vector<Moment>& moments, std::size_t sets);

    /// A set with the pump off.
    void rest(const Moment& pumpOff);

    /// Elements of a stage were changed.
    void renew(const Moment& moment, const ElementsChanged& changed);

    /// The evidence of the next good set, read while filtering.
    [[nodiscard]] Evidence gather(const Moment& reading);

    /// Takes the set that was gathered last as a reference, unless what was found there spoils it.
    void settle(bool isSpoiled);

private:
    struct StageBook
    {
        const Sight* first = nullptr; ///< Since its elements were changed, good or not.
        const Sight* base = nullptr;
        double freshSum = 0.0;
        int freshCount = 0;
        bool isNewSinceLast = false;
        std::optional<Renewal> renewal = {};
    };

    void compareHead(Evidence& evidence) const;
    void compareStage(Evidence& evidence, std::size_t i) const;
    void compareSums(Evidence& evidence) const;
    [[nodiscard]] std::optional<Uncertain> alone(const Sight& now, const Sight& then, std::size_t i) const;
    void watchNeedles(const Sight& now);
    void watchFresh(const Sight& now);
    void averageHead(const Sight& now);
    [[nodiscard]] SignsNear signsNear(const Sight& now) const;

    const RunState& run_;
    const std::vector<Moment>& moments_;
    Sighting sighting_;
    Offsets offsets_;
    std::vector<Sight> sights_;
    std::vector<StageBook> stages_;
    std::vector<Standstill> needles_;
    const Moment* pumpOff_ = nullptr;
    const Sight* base_ = nullptr;
    const Sight* last_ = nullptr;
    const Sight* oneBefore_ = nullptr; ///< The reference before the last.
    const Sight* coldest_ = nullptr;
    std::optional<Measured> headBase_; ///< Mean of the first good sets, at the push of the base.
    int headSets_ = 0;
};

/// The share of the flow that is left, as far as the witness tells: 1 is all of it.
[[nodiscard]] std::optional<Uncertain> flowLeft(const Evidence& evidence);

} // namespace loopside::run
