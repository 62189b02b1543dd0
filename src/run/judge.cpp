// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/judge.h"

#include "base/text.h"
#include "run/alert.h"
#include "run/finding_values.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace loopside::run {

namespace {

std::size_t placesOf(const Pattern& pattern, const Evidence& evidence)
{
    switch (pattern.about) {
    case About::Stage:
        return evidence.stageCount();
    case About::Gauge:
        return evidence.needles.size();
    case About::Loop:
        break;
    }
    return 1;
}

bool lists(const auto& ids, std::string_view id)
{
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

bool excludes(const Sign& by, const Sign& sign)
{
    const bool isNamed = lists(by.pattern->excludes, sign.pattern->id)
        || (by.pattern->excludesStages && lists(foundOfStages, sign.pattern->id));
    const bool areOfStages = by.pattern->about == About::Stage && sign.pattern->about == About::Stage;
    return isNamed && (!areOfStages || by.place == sign.place);
}

const Sign* signOf(const std::vector<Sign>& signs, const Pattern& pattern, std::size_t place)
{
    const auto found = std::find_if(signs.begin(), signs.end(), [&](const Sign& sign) {
        return sign.pattern->id == pattern.id && sign.pattern->about == pattern.about && sign.place == place;
    });
    return found == signs.end() ? nullptr : &*found;
}

/// Whether a sign is of that stage, or of a gauge before or behind it, or of the whole loop.
bool touches(const Sign& sign, std::size_t stage)
{
    switch (sign.pattern->about) {
    case About::Stage:
        return sign.place == stage;
    case About::Gauge:
        return sign.place == stage || sign.place == stage + 1;
    case About::Loop:
        break;
    }
    return true;
}

bool spoil(const std::vector<Sign>& signs)
{
    return std::any_of(signs.begin(), signs.end(), [](const Sign& sign) { return sign.pattern->spoils; });
}

/// As much of what a pattern needs makes it suspected, where it may wait for another set.
double partOf(const Pattern& pattern)
{
    constexpr double suspicious = 0.5;
    return pattern.told == Told::AtOnce || pattern.told == Told::Twice ? 1.0 : suspicious;
}

/// Whether the sets in a row that show it are enough together: the sum of n normal numbers is √n times as wide as one.
bool isTogetherEnough(const Sign& sign)
{
    constexpr std::size_t most = 3; // the reference that they share errs the same in all
    const std::size_t sets = std::min(sign.ofNeed.size(), most);
    const double sum = std::accumulate(sign.ofNeed.begin(), sign.ofNeed.begin() + static_cast<std::ptrdiff_t>(sets),
                                       0.0);
    return sets > 1 && sum >= std::sqrt(static_cast<double>(sets));
}

/// Whether one set is enough.
bool isToldAtOnce(const Sign& sign, const Evidence& evidence)
{
    return sign.pattern->told == Told::AtOnce
        || (sign.pattern->told == Told::WhenStrong && sign.holds >= veryLikely && sign.ofNeed.front() >= 1.0
            && evidence.isBeyondSlip);
}

/// How well a pattern holds.
struct Hold
{
    double z = -impossible;      ///< The least of what lends confidence.
    double ofNeed = -impossible; ///< The least of what lends confidence ÷ what is needed; 1 is enough.
};

/// How well `pattern` holds at `place`, if it does to `part` of what it needs.
std::optional<Hold> holds(const Pattern& pattern, const Evidence& evidence, std::size_t place, double part)
{
    Hold hold;
    for (const Need& need : pattern.needs) {
        if (need.clue == nullptr) {
            break;
        }
        const double z = need.clue->holds(evidence, place);
        if (!(z >= std::min(need.least, need.least * part))) {
            return std::nullopt;
        }
        if (need.least > even) {
            hold = {std::min(hold.z, z), std::min(hold.ofNeed, z / need.least)};
        }
    }
    return hold;
}

Confidence confidenceOf(const Sign& sign, const Evidence& evidence)
{
    Confidence most = sign.pattern->atMost;
    if (sign.pattern->leansOnHead && evidence.now.isWeak()) {
        most = std::min(most, Confidence::Medium);
    }
    if (sign.pattern->leansOnOil && !evidence.now.push) {
        most = Confidence::Low;
    }
    const Confidence own = sign.holds >= sure ? Confidence::High
        : sign.holds >= veryLikely            ? Confidence::Medium
                                              : Confidence::Low;
    return std::min(own, most);
}

/// Cold oil over a limit, or near it, is not a reason to change elements.
bool isCold(const Evidence& evidence)
{
    return std::all_of(evidence.now.loading.begin(), evidence.now.loading.end(), [](const auto& loading) {
        constexpr double loaded = 1.5;
        return loading && loading->below(loaded) >= likely;
    });
}

Finding told(const Sign& sign, const Evidence& evidence)
{
    const Pattern& pattern = *sign.pattern;
    const auto values = findingValues(evidence, pattern, sign.place);
    const std::string id = "finding." + std::string(pattern.id);
    Finding finding{.id = pattern.id, .level = pattern.level, .since = sign.since};
    if (pattern.about == About::Stage) {
        finding.stage = static_cast<int>(sign.place) + 1;
    }
    finding.confidence = confidenceOf(sign, evidence);
    finding.headline = {id, values};
    for (const Need& need : pattern.needs) {
        if (need.clue != nullptr && !need.clue->says.empty()) {
            finding.because.push_back({"because." + std::string(need.clue->says), values});
        }
    }
    for (const std::string_view contrary : pattern.ruledOut) {
        if (!contrary.empty()) {
            finding.ruledOut.push_back({"ruled-out." + std::string(contrary), values});
        }
    }
    finding.confirm.push_back({id + ".confirm", values});
    const bool waitsForWarmth = (pattern.id == "stage-at-limit" || pattern.id == "stage-near-limit")
        && isCold(evidence);
    finding.act = {id + (waitsForWarmth ? ".do.cold" : ".do"), values};
    finding.hazard = {"hazard." + std::string(pattern.hazard), {}};
    return finding;
}

class Judge
{
public:
    Judge(const RunState& run, const std::vector<Moment>& moments, const std::vector<Question>& questions)
        : run_{run},
          moments_{moments},
          questions_{questions},
          gatherer_{run, moments,
                    static_cast<std::size_t>(std::count_if(moments.begin(), moments.end(), [](const Moment& moment) {
                        return moment.reading != nullptr;
                    }))}
    {
    }

    Diagnosis judge()
    {
        const Moment* last = lastGood();
        for (const Moment& moment : moments_) {
            if (const auto* changed = std::get_if<ElementsChanged>(&moment.fact->effective);
                changed != nullptr && !moment.fact->struck) {
                gatherer_.renew(moment, *changed);
            }
            if (moment.reading != nullptr && moment.mode == Mode::Stopped && !isBlank(*moment.reading)) {
                gatherer_.rest(moment);
            }
            if (isGood(moment)) {
                judge(moment, &moment == last);
            }
        }
        setAsideWhatIsOver();
        rank(diagnosis_.findings);
        return std::move(diagnosis_);
    }

private:
    [[nodiscard]] bool isGood(const Moment& moment) const
    {
        return moment.reading != nullptr && moment.mode == Mode::Filtering && !isBlank(*moment.reading)
            && !isHeldBack(*moment.fact, questions_);
    }

    [[nodiscard]] const Moment* lastGood() const
    {
        const auto found = std::find_if(moments_.rbegin(), moments_.rend(),
                                        [this](const Moment& moment) { return isGood(moment); });
        return found == moments_.rend() ? nullptr : &*found;
    }

    void judge(const Moment& moment, bool isLast)
    {
        const Evidence evidence = gatherer_.gather(moment);
        JudgedSet set{.moment = &moment};
        findSigns(set, evidence);
        dropTheExcluded(set);
        dropWhatDoesNotBegin(set);
        dateSigns(set);
        takeFromCredit(set, evidence);
        gatherer_.settle(spoil(set.signs) || spoil(set.suspected));
        if (isLast) {
            for (const Sign& sign : set.signs) {
                diagnosis_.findings.push_back(told(sign, evidence));
            }
        }
        diagnosis_.sets.push_back(std::move(set));
    }

    [[nodiscard]] const Sign* before(const Pattern& pattern, std::size_t place) const
    {
        return diagnosis_.sets.empty() ? nullptr : signOf(diagnosis_.sets.back().signs, pattern, place);
    }

    [[nodiscard]] const Sign* suspected(const Pattern& pattern, std::size_t place) const
    {
        return diagnosis_.sets.empty() ? nullptr : signOf(diagnosis_.sets.back().suspected, pattern, place);
    }

    void findSigns(JudgedSet& set, const Evidence& evidence) const
    {
        for (const Pattern& pattern : patterns()) {
            for (std::size_t place = 0; place < placesOf(pattern, evidence); ++place) {
                if (signOf(set.signs, pattern, place) != nullptr) {
                    continue; // an earlier row said so
                }
                const Sign* said = before(pattern, place);
                const bool wasSaid = said != nullptr && said->pattern == &pattern;
                const auto hold = holds(pattern, evidence, place, wasSaid ? 0.0 : partOf(pattern));
                if (!hold) {
                    continue;
                }
                Sign sign{&pattern, place, hold->z, set.moment->at};
                sign.ofNeed = {hold->ofNeed};
                if (const Sign* suspicion = suspected(pattern, place)) {
                    sign.ofNeed.insert(sign.ofNeed.end(), suspicion->ofNeed.begin(), suspicion->ofNeed.end());
                }
                const bool isTold = said != nullptr || isTogetherEnough(sign) || isToldAtOnce(sign, evidence);
                (isTold ? set.signs : set.suspected).push_back(sign);
            }
        }
    }

    /// A set that is no reference is none to begin a note on what the elements hold.
    void dropWhatDoesNotBegin(JudgedSet& set) const
    {
        if (spoil(set.signs)) {
            std::erase_if(set.signs, [this](const Sign& sign) {
                return sign.pattern->beginsInReferences && before(*sign.pattern, sign.place) == nullptr;
            });
        }
    }

    static void dropTheExcluded(JudgedSet& set)
    {
        for (std::size_t i = 0; i < set.signs.size(); ++i) {
            const Sign by = set.signs[i];
            std::erase_if(set.signs, [&](const Sign& sign) { return excludes(by, sign); });
            std::erase_if(set.suspected, [&](const Sign& sign) { return excludes(by, sign); });
        }
    }

    /// What was suspected of the last set held there already.
    void confirm(const Sign& suspicion)
    {
        JudgedSet& last = diagnosis_.sets.back();
        last.isDoubtful |= suspicion.pattern->takes == Takes::AllDoubtful;
        last.signs.push_back(suspicion);
        std::stable_sort(last.signs.begin(), last.signs.end(),
                         [](const Sign& a, const Sign& b) { return a.pattern < b.pattern; });
        dropTheExcluded(last);
    }

    void dateSigns(JudgedSet& set)
    {
        for (Sign& sign : set.signs) {
            if (const Sign* said = before(*sign.pattern, sign.place)) {
                sign.since = said->since;
            } else if (const Sign* suspicion = suspected(*sign.pattern, sign.place)) {
                sign.since = suspicion->since;
                confirm(*suspicion);
            }
        }
        for (Sign& sign : set.suspected) {
            if (const Sign* suspicion = suspected(*sign.pattern, sign.place)) {
                sign.since = suspicion->since;
            }
        }
    }

    static void takeFromCredit(JudgedSet& set, const Evidence& evidence)
    {
        for (const Sign& sign : set.signs) {
            set.isDoubtful |= sign.pattern->takes == Takes::AllDoubtful;
            if (sign.pattern->takes == Takes::LostFlow) {
                const auto left = flowLeft(evidence);
                set.flowLeft = left ? std::clamp(left->value, 0.0, 1.0) : 1.0;
            }
        }
    }

    /// Takes from the findings what the elements, the pump or the valve have put an end to since the last set.
    void setAsideWhatIsOver()
    {
        if (diagnosis_.sets.empty()) {
            return;
        }
        const Moment& last = *diagnosis_.sets.back().moment;
        const bool isMoved = moments_.back().mode != Mode::Filtering;
        auto& findings = diagnosis_.findings;
        std::erase_if(findings, [&](const Finding& finding) {
            const auto i = static_cast<std::size_t>(finding.stage.value_or(0));
            return i > 0 && moments_.back().elementsSince[i - 1] != last.elementsSince[i - 1]
                && finding.id != "limit-above-bypass";
        });
        const auto over = std::stable_partition(findings.begin(), findings.end(), [&](const Finding& finding) {
            const auto row = std::find_if(patterns().begin(), patterns().end(),
                                          [&](const Pattern& pattern) { return pattern.id == finding.id; });
            return !isMoved || !row->endsWithMode;
        });
        diagnosis_.ended.assign(over, findings.end());
        findings.erase(over, findings.end());
    }

    const RunState& run_;
    const std::vector<Moment>& moments_;
    const std::vector<Question>& questions_;
    Gatherer gatherer_;
    Diagnosis diagnosis_;
};

Finding targetMet(const RunState& run, const std::vector<Moment>& moments, const TurnoverBand& turnovers)
{
    const double target = run.setup.target.turnovers->toDouble();
    const double each = (run.setup.tank.volume.value() / run.setup.cart.flow.value()).in(units::minute);
    const std::vector<Message::Argument> values = {
        {"target", run.setup.target.turnovers->toText()},
        {"best", fixed(turnovers.best, 1)},
        {"low", fixed(turnovers.low, 1)},
        {"minutes", fixed(std::ceil(std::max(0.0, target - turnovers.low) * each), 0)}};
    const Alert* alert = run.alertOf(AlertId::TargetTurnoversMet, std::nullopt);
    return {.id = "target-turnovers-met",
            .since = alert != nullptr ? alert->since : moments.back().at,
            .confidence = turnovers.low >= target ? Confidence::High : Confidence::Medium,
            .headline = {"finding.target-turnovers-met", values},
            .because = {{"because.turnovers", values}},
            .confirm = {{"finding.target-turnovers-met.confirm", values}},
            .act = {"finding.target-turnovers-met.do", values},
            .hazard = {"hazard.site", {}}};
}

Finding limitForeseen(const JudgedSet& set, const RunState& run, std::size_t stage, double chance)
{
    std::vector<Message::Argument> values = {{"stage", std::to_string(stage + 1)},
                                             {"elements", std::to_string(run.setup.stages[stage].elements)},
                                             {"chance", fixed(chance * 100.0, 0)}};
    if (const auto& raw = set.moment->raw[stage]) {
        values.emplace_back("drop", raw->toText());
    }
    if (const auto& limit = run.setup.stages[stage].changeLimit) {
        values.emplace_back("limit", limit->toText());
    }
    return {.id = "stage-near-limit",
            .stage = static_cast<int>(stage) + 1,
            .level = FindingLevel::Caution,
            .since = set.moment->at,
            .confidence = Confidence::Medium,
            .headline = {"finding.stage-near-limit", values},
            .because = {{"because.limit-foreseen", values}},
            .confirm = {{"finding.stage-near-limit.confirm", values}},
            .act = {"finding.stage-near-limit.do", values},
            .hazard = {"hazard.pressure", {}}};
}

bool isSaid(const std::vector<Finding>& findings, std::string_view id, int stage)
{
    return std::any_of(findings.begin(), findings.end(),
                       [&](const Finding& finding) { return finding.id == id && finding.stage == stage; });
}

} // namespace

bool JudgedSet::has(std::string_view id) const
{
    return std::any_of(signs.begin(), signs.end(), [&](const Sign& sign) { return sign.pattern->id == id; });
}

bool JudgedSet::isDoubtfulFor(std::size_t stage) const
{
    return std::any_of(signs.begin(), signs.end(), [&](const Sign& sign) {
        const bool isOfOther = sign.pattern->about == About::Stage && sign.place != stage;
        return sign.pattern->takes == Takes::AllDoubtful && !isOfOther;
    });
}

bool JudgedSet::doubtsDropOf(std::size_t stage) const
{
    return std::any_of(signs.begin(), signs.end(),
                       [&](const Sign& sign) { return sign.pattern->doubtsDrop && touches(sign, stage); });
}

bool JudgedSet::isSwelling(std::size_t stage) const
{
    return std::any_of(signs.begin(), signs.end(), [&](const Sign& sign) {
        return sign.pattern->id == "water-element-swelling" && sign.place == stage;
    });
}

Diagnosis judgeSets(const RunState& run, const std::vector<Moment>& moments, const std::vector<Question>& questions)
{
    return moments.empty() ? Diagnosis{} : Judge(run, moments, questions).judge();
}

std::vector<Finding> findingsOf(const RunState& run, const std::vector<Moment>& moments, const Diagnosis& diagnosis,
                                const TurnoverBand& turnovers, LimitChances chances)
{
    constexpr double near = 0.5;
    std::vector<Finding> findings = diagnosis.findings;
    if (!moments.empty() && meetsTarget(turnovers, run.setup.target)) {
        findings.push_back(targetMet(run, moments, turnovers));
    }
    for (std::size_t i = 0; i < chances.size() && !diagnosis.sets.empty(); ++i) {
        const int stage = static_cast<int>(i) + 1;
        if (chances[i] && *chances[i] >= near && !isSaid(findings, "stage-at-limit", stage)
            && !isSaid(findings, "stage-near-limit", stage)) {
            findings.push_back(limitForeseen(diagnosis.sets.back(), run, i, *chances[i]));
        }
    }
    rank(findings);
    return findings;
}

} // namespace loopside::run
