// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/tank_past.h"

#include "oil/cleanliness_code.h"
#include "run/samples.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr double msPerDay = 86'400'000.0;

/// The codes of one run, in the order in which their oil was drawn.
struct RunCodes
{
    std::optional<CodeTold> before = {}; ///< The first, if it was drawn before anything was filtered.
    std::optional<CodeTold> after = {};  ///< The last, if it was drawn after.
    bool isBeforeOfTank = false;         ///< Not from behind a filter.
    bool isAfterOfTank = false;
};

/// When the oil of `bottle` was in the tank, as far as it is known.
const Stamp& stampOf(const BottleTold& bottle)
{
    return (bottle.bottle != nullptr ? bottle.bottle : bottle.told)->header.entered;
}

/// Adds what water was told of bottles of `run` to `waters`.
void takeWaters(const RunState& run, std::vector<WaterTold>& waters)
{
    for (const BottleTold& bottle : bottlesTold(run)) {
        if (!bottle.result.water.empty()) {
            waters.push_back({bottle.result.water, stampOf(bottle), run.id});
        }
    }
}

/// As it was told, else of the counts; empty where there is neither.
std::string codeTextOf(const ResultEntered& result)
{
    const auto made = result.code.empty() ? codeIn(result) : std::nullopt;
    return made ? made->toText() : result.code;
}

RunTime firstFiltering(const RunState& run)
{
    const auto found = std::find_if(run.facts.begin(), run.facts.end(), [](const Fact& fact) {
        const auto* changed = std::get_if<ModeChanged>(&fact.effective);
        return changed != nullptr && !fact.struck && changed->mode == Mode::Filtering;
    });
    return found == run.facts.end() ? RunTime::max() : found->seen;
}

/// Adds what of `run` was counted to `codes`, and tells the first and the last.
RunCodes takeCodes(const RunState& run, std::vector<CodeTold>& codes)
{
    RunCodes ends;
    std::optional<RunTime> first;
    std::optional<RunTime> last;
    const RunTime filtering = firstFiltering(run);
    for (const BottleTold& told : bottlesTold(run)) {
        const std::string code = codeTextOf(told.result);
        if (code.empty()) {
            continue;
        }
        codes.push_back({code, stampOf(told), run.id});
        const Fact* bottle = told.bottle;
        if (bottle == nullptr) {
            continue; // nobody knows whether it was drawn before or after
        }
        const bool isOfTank = std::get<SampleDrawn>(bottle->effective).port <= 1;
        if (bottle->seen <= filtering && (!first || bottle->seen < *first)) {
            first = bottle->seen;
            ends.before = codes.back();
            ends.isBeforeOfTank = isOfTank;
        }
        if (bottle->seen > filtering && (!last || bottle->seen >= *last)) {
            last = bottle->seen;
            ends.after = codes.back();
            ends.isAfterOfTank = isOfTank;
        }
    }
    return ends;
}

int riseOf(const oil::CleanlinessCode& from, const oil::CleanlinessCode& to)
{
    int most = 0;
    for (std::size_t i = 0; i < from.scales().size(); ++i) {
        const auto was = from.scales()[i].atLeast();
        const auto is = to.scales()[i].atLeast();
        most = was && is ? std::max(most, *is - *was) : most;
    }
    return most;
}

Ingress ingressBetween(const CodeTold& after, const CodeTold& before)
{
    const auto from = oil::CleanlinessCode::parse(after.code);
    const auto to = oil::CleanlinessCode::parse(before.code);
    const double days = static_cast<double>(before.drawn.wallMs - after.drawn.wallMs) / msPerDay;
    if (!from || !to || !(days > 0.0)) {
        return {};
    }
    using Verdict = Ingress::Verdict;
    const auto verdictOf = [](oil::CodeChange change) {
        switch (change) {
        case oil::CodeChange::Dirtier:
            return Verdict::Dirtier;
        case oil::CodeChange::Cleaner:
            return Verdict::Cleaner;
        case oil::CodeChange::NotProven:
            return Verdict::NotProven;
        case oil::CodeChange::CannotTell:
            break;
        }
        return Verdict::CannotTell;
    };
    return {.verdict = verdictOf(oil::compareCodes(*from, *to).whole),
            .from = after.code,
            .to = before.code,
            .days = days,
            .numbers = riseOf(*from, *to),
            .at = before.drawn};
}

/// Between the points of the curve a straight line.
std::optional<double> halfWayOf(const LoadingLearned& loading)
{
    const double half_l = 0.5 * loading.end_l;
    for (std::size_t i = 1; i < loading.curve.size() && !loading.isCutShort; ++i) {
        const auto& [before_l, before_pa] = loading.curve[i - 1];
        const auto& [after_l, after_pa] = loading.curve[i];
        if (before_l <= half_l && half_l <= after_l && after_l > before_l && loading.limit_pa > 0.0) {
            const double drop_pa = std::lerp(before_pa, after_pa, (half_l - before_l) / (after_l - before_l));
            return drop_pa > 0.0 ? std::optional(drop_pa / loading.limit_pa) : std::nullopt;
        }
    }
    return std::nullopt;
}

} // namespace

TankPast pastOf(const State& state, const std::string& tank)
{
    std::vector<const RunState*> runs;
    for (const auto& [id, run] : state.runs) {
        if (run.setup.tank.name == tank && !run.setup.isPractice && run.phase == Phase::Closed) {
            runs.push_back(&run);
        }
    }
    std::stable_sort(runs.begin(), runs.end(), [](const RunState* a, const RunState* b) {
        return a->opened.entered.wallMs < b->opened.entered.wallMs;
    });
    TankPast past;
    std::optional<CodeTold> left;
    bool isLeftOfTank = false;
    for (const RunState* run : runs) {
        ++past.runs;
        past.turnovers += run->closed->turnovers.best;
        past.filtered_l += run->closed->filtered_l;
        for (const LoadingLearned& loading : run->taught) {
            if (!loading.isWithdrawn && !loading.isUsed && loading.tank == tank) {
                past.lives.push_back({loading.elementType, loading.end_l, loading.isCutShort, run->opened.entered,
                                      run->id, halfWayOf(loading)});
            }
        }
        const RunCodes codes = takeCodes(*run, past.codes);
        takeWaters(*run, past.waters);
        if (left && codes.before) {
            past.ingress = ingressBetween(*left, *codes.before);
            if (past.ingress.verdict != Ingress::Verdict::CannotTell) {
                past.ingress.isOfTank = isLeftOfTank && codes.isBeforeOfTank;
                past.ingresses.push_back(past.ingress);
            }
        }
        if (codes.before && codes.after && codes.isBeforeOfTank && codes.isAfterOfTank) {
            past.cleanings.push_back({codes.before->code, codes.after->code, run->closed->turnovers.best});
        }
        isLeftOfTank = codes.isAfterOfTank;
        left = codes.after; // a run without a count tells nothing of what it left
    }
    const auto isLater = [](const auto& a, const auto& b) { return a.drawn.wallMs > b.drawn.wallMs; };
    std::stable_sort(past.codes.begin(), past.codes.end(), isLater);
    std::stable_sort(past.waters.begin(), past.waters.end(), isLater);
    return past;
}

} // namespace loopside::run
