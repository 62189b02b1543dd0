// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/judge.h"

#include "base/text.h"
#include "run/alert.h"
#include "run/finding_values.h"

#include <algorithm>
#include <cmath>

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

const Sign* signOf(const JudgedSet& set, const Pattern& pattern, std::size_t place)
{
    const auto found = std::find_if(set.signs.begin(), set.signs.end(), [&](const Sign& sign) {
        return sign.pattern->id == pattern.id && sign.pattern->about == pattern.about && sign.place == place;
    });
    return found == set.signs.end() ? nullptr : &*found;
}

/// Whether `pattern` holds at `place`, and how well. What was said before goes on while it is more likely than not.
std::optional<double> holds(const Pattern& pattern, const Evidence& evidence, std::size_t place, bool wasSaid)
{
    double confidence = -impossible;
    for (const Need& need : pattern.needs) {
        if (need.clue == nullptr) {
            break;
        }
        const double z = need.clue->holds(evidence, place);
        if (!(z >= (wasSaid ? std::min(need.least, even) : need.least))) {
            return std::nullopt;
        }
        confidence = need.least > even ? std::min(confidence, z) : confidence;
    }
    return confidence;
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

/// Cold oil over a limit is not a reason to change elements.
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
    const bool waitsForWarmth = pattern.id == "stage-at-limit" && isCold(evidence);
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
        forgetWhatIsOver();
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
        dateSigns(set);
        takeFromCredit(set, evidence);
        gatherer_.settle(
            std::any_of(set.signs.begin(), set.signs.end(), [](const Sign& sign) { return sign.pattern->spoils; }));
        if (isLast) {
            for (const Sign& sign : set.signs) {
                diagnosis_.findings.push_back(told(sign, evidence));
            }
        }
        diagnosis_.sets.push_back(std::move(set));
    }

    [[nodiscard]] const Sign* before(const Pattern& pattern, std::size_t place) const
    {
        return diagnosis_.sets.empty() ? nullptr : signOf(diagnosis_.sets.back(), pattern, place);
    }

    void findSigns(JudgedSet& set, const Evidence& evidence) const
    {
        for (const Pattern& pattern : patterns()) {
            for (std::size_t place = 0; place < placesOf(pattern, evidence); ++place) {
                if (signOf(set, pattern, place) != nullptr) {
                    continue; // an earlier row said so
                }
                const Sign* said = before(pattern, place);
                const bool wasSaid = said != nullptr && said->pattern == &pattern;
                if (const auto z = holds(pattern, evidence, place, wasSaid)) {
                    set.signs.push_back({&pattern, place, *z, set.moment->at});
                }
            }
        }
    }

    static void dropTheExcluded(JudgedSet& set)
    {
        for (std::size_t i = 0; i < set.signs.size(); ++i) {
            const Sign by = set.signs[i];
            std::erase_if(set.signs, [&](const Sign& sign) { return excludes(by, sign); });
        }
    }

    void dateSigns(JudgedSet& set) const
    {
        for (Sign& sign : set.signs) {
            if (const Sign* said = before(*sign.pattern, sign.place)) {
                sign.since = said->since;
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

    /// What the elements or the valve have put an end to since the last set.
    void forgetWhatIsOver()
    {
        if (diagnosis_.sets.empty()) {
            return;
        }
        const Moment& last = *diagnosis_.sets.back().moment;
        const bool isMoved = moments_.back().mode != Mode::Filtering;
        std::erase_if(diagnosis_.findings, [&](const Finding& finding) {
            const auto i = static_cast<std::size_t>(finding.stage.value_or(0));
            const bool isRenewed = i > 0 && moments_.back().elementsSince[i - 1] != last.elementsSince[i - 1]
                && finding.id != "limit-above-bypass";
            const auto row = std::find_if(patterns().begin(), patterns().end(),
                                          [&](const Pattern& pattern) { return pattern.id == finding.id; });
            return isRenewed || (isMoved && row->endsWithMode);
        });
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
