// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What one set shows beside the sets before it: every quotient that a pattern may ask for, worked out once.
//
// Two references, both of this run. The base is the first good set since the start, a stage's the first since its
// elements were changed; what falls is held against the middle one of the first minutes' three. The last is what the
// newest sets show, again the middle one of three, in which nothing was found, or suspected, that spoils a reference: a
// torn stage is held against how it was before it tore for as long as it stands. Quotients are now ÷ what oil and flow
// make of the reference; 1 is "as before".

#pragma once

#include "run/loading_seen.h"
#include "run/oil_fit.h"
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
    const Sight* before = nullptr;         ///< The last set with the old elements, unless something spoilt it.
};

struct StageEvidence
{
    const Sight* base = nullptr;       ///< Nothing before the first good set.
    std::optional<Measured> last = {}; ///< Its ΔP at the last reference, if it has the same elements still.
    std::optional<Ratio> sinceBase = {};
    std::optional<Ratio> sinceFirst = {}; ///< Since the middle of the first minutes; for what falls.
    std::optional<Ratio> sinceLast = {};
    std::optional<Ratio> aloneSinceLast = {}; ///< ÷ how all other losses moved; oil and flow fall out.
    std::optional<Ratio> aloneSinceBase = {};
    std::optional<Renewal> renewal = {};
    std::optional<Ratio> ofOld = {}; ///< First seen after a changeover ÷ the last of the old; oil and flow taken out.
    /// Loading when its elements were first seen, mean of the first minutes, ÷ what was told of them; 1 is as expected.
    std::optional<Uncertain> fresh = {};
    std::optional<LoadingSeen> loading = {}; ///< Of now, in the light of the first minutes.
    bool isFresh = false; ///< Whether this set is one of the first minutes, in which dirt has not done much yet.
    /// The same less what the stage loaded since the oil began to flow, as far as the sets after it tell.
    std::optional<Uncertain> freshAtStart = {};
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
    std::optional<Ratio> headSinceBase = {};
    std::optional<Ratio> headSinceLast = {};
    std::optional<Ratio> filtersSinceLast = {};
    std::optional<Ratio> totalSinceLast = {};
    std::optional<Ratio> totalSinceBase = {};
    std::optional<Ratio> headAloneSinceLast = {}; ///< ÷ how the filters moved.
    std::vector<StageEvidence> stages = {};
    std::vector<Standstill> needles = {}; ///< One per gauge.
    bool isBeyondSlip = false;            ///< What changed since the last reference is no one needle misread.
    const Moment* pumpOff = nullptr;      ///< The last set with the pump off.
    SignsNear signs = {};
    const Sight* coldest = nullptr; ///< The set with the thickest oil of this run.
    std::vector<OilFit> oil = {};   ///< How thick the oil may be, by all losses together.

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
    /// The middle one of the first three readings of a loss, of two their mean, all brought to one state of the oil.
    class Middle
    {
    public:
        void add(const Measured& loss);
        [[nodiscard]] std::optional<Measured> value() const;

    private:
        std::vector<Measured> losses_;
    };

    struct StageBook
    {
        const Sight* first = nullptr;  ///< Since its elements were changed, good or not.
        const Sight* newest = nullptr; ///< Of the first minutes.
        const Sight* base = nullptr;
        Middle drop = {}; ///< At the push of the base.
        double freshSum = 0.0;
        RunTime freshTimes{0}; ///< Sum, since the first.
        int freshCount = 0;
        std::optional<Renewal> renewal = {};
    };

    void compareHead(Evidence& evidence) const;
    void compareStage(Evidence& evidence, std::size_t i) const;
    void compareSums(Evidence& evidence) const;
    [[nodiscard]] std::optional<Ratio> alone(const Sight& now, const Sight& then, std::size_t i) const;
    void watchNeedles(const Sight& now);
    void watchFresh(const Sight& now);
    void takeIntoBases(const Sight& now);
    void takeAsReference(const Sight& now);
    void tellFresh(StageEvidence& stage, std::size_t i) const;
    void tellLoading(StageEvidence& stage, std::size_t i) const;
    [[nodiscard]] double asFitted(std::size_t i) const;
    [[nodiscard]] bool isBeyondSlip(const Evidence& evidence) const;
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
    std::vector<const Sight*> recent_; ///< The last references, oldest first.
    std::optional<Sight> reference_;   ///< What they show together.
    const Sight* coldest_ = nullptr;
    Middle headBase_ = {};   ///< At the push of the base.
    bool isSpoiled_ = false; ///< The newest set.
};

/// The share of the flow that is left, as far as the witness tells: 1 is all of it.
[[nodiscard]] std::optional<Ratio> flowLeft(const Evidence& evidence);

} // namespace loopside::run
