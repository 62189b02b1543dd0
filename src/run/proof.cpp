// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/proof.h"

#include "base/text.h"
#include "run/kit.h"
#include "run/plan.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr RunTime oneMoment = std::chrono::minutes(5); // between bottles of two ports that are held against each other
constexpr filtration::PerSize<double> sizesUm = {4.0, 6.0, 14.0};

/// The first bottle of the tank that was counted while little was filtered.
std::optional<std::size_t> beforeOf(const std::vector<SampleSeen>& samples)
{
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (samples[i].isOfTank() && samples[i].isCounted() && samples[i].turnovers < firstBottleUntil) {
            return i;
        }
    }
    return std::nullopt;
}

bool isAfter(const std::vector<SampleSeen>& samples, std::size_t i, const std::optional<std::size_t>& before)
{
    const bool isLater = before ? i > *before && samples[i].turnovers > samples[*before].turnovers
                                : samples[i].turnovers >= firstBottleUntil;
    return samples[i].isOfTank() && isLater;
}

/// The latest bottle of the tank after filtering of which `isWanted` holds.
template<class Wanted>
std::optional<std::size_t> latestAfter(const Proof& proof, Wanted isWanted)
{
    for (std::size_t i = proof.samples.size(); i-- > 0;) {
        if (isAfter(proof.samples, i, proof.before) && isWanted(proof.samples[i])) {
            return i;
        }
    }
    return std::nullopt;
}

std::optional<oil::CleanlinessCode> targetOf(const RunState& run)
{
    const auto target = oil::CleanlinessCode::parse(run.setup.target.code);
    return target ? std::optional(*target) : std::nullopt;
}

bool isTold(const SampleSeen& sample, const oil::CleanlinessCode& target)
{
    return sample.code && oil::compareToTarget(*sample.code, target).whole != oil::TargetVerdict::CannotTell;
}

OilVerdict verdictOf(oil::TargetVerdict target)
{
    switch (target) {
    case oil::TargetVerdict::Better:
        return OilVerdict::Better;
    case oil::TargetVerdict::Met:
        return OilVerdict::Met;
    case oil::TargetVerdict::NotProven:
        return OilVerdict::NotProven;
    case oil::TargetVerdict::NotMet:
        return OilVerdict::NotMet;
    case oil::TargetVerdict::CannotTell:
        break;
    }
    return OilVerdict::CannotTell;
}

void judgeTarget(Proof& proof, const std::optional<oil::CleanlinessCode>& target)
{
    const auto counted = latestAfter(proof, [](const SampleSeen& sample) { return sample.isCounted(); });
    const auto drawn = latestAfter(proof, [](const SampleSeen&) { return true; });
    const auto told = target ? latestAfter(proof, [&](const SampleSeen& sample) { return isTold(sample, *target); })
                             : std::nullopt;
    proof.after = told ? told : counted;
    if (!target) {
        proof.verdict = OilVerdict::NoTarget;
    } else if (!proof.after) {
        proof.verdict = drawn ? OilVerdict::Awaited : OilVerdict::NotDrawn;
    } else {
        const auto compared = oil::compareToTarget(*proof.samples[*proof.after].code, *target);
        proof.verdict = verdictOf(compared.whole);
        if (!proof.isMet() && !proof.samples[*proof.after].fooledBy.empty()) {
            proof.verdict = OilVerdict::CannotTell; // what was counted beside dirt only adds to it
        }
        for (std::size_t i = 0; i < proof.sizes.size(); ++i) {
            proof.sizes[i].target = compared.sizes[i];
        }
    }
}

/// The latest counted bottle that may be held against the first one; if none may, the latest.
void chooseHeld(Proof& proof)
{
    if (!proof.before) {
        return;
    }
    const SampleSeen& first = proof.samples[*proof.before];
    const auto fits = latestAfter(proof, [&](const SampleSeen& sample) {
        return sample.isCounted() && compareSamples(first, sample).isComparable();
    });
    proof.held = fits ? fits : latestAfter(proof, [](const SampleSeen& sample) { return sample.isCounted(); });
    if (proof.held) {
        proof.comparability = compareSamples(first, proof.samples[*proof.held]);
    }
}

void judgeSizes(Proof& proof)
{
    for (std::size_t i = 0; proof.held && i < proof.sizes.size(); ++i) {
        const auto& was = proof.samples[*proof.before].counts[i];
        const auto& is = proof.samples[*proof.held].counts[i];
        const auto ratio = was && is ? filtration::ratioOf(*was, *is)
                                     : Result<filtration::Band>(fail(Errc::Unavailable, "not counted"));
        if (ratio) {
            proof.sizes[i].ratio = *ratio;
            proof.sizes[i].change = filtration::changeOf(*ratio);
        }
    }
}

void judgeCodesDown(Proof& proof, const RunState& run)
{
    if (!proof.held) {
        return;
    }
    const SampleSeen& was = proof.samples[*proof.before];
    const SampleSeen& is = proof.samples[*proof.held];
    std::optional<CodesDown> down;
    for (std::size_t i = 0; i < sizesUm.size(); ++i) {
        const auto from = was.code->scales()[i].atLeast();
        const auto to = is.code->scales()[i].atLeast();
        if (from && to) {
            const int got = *from - *to;
            down = down.value_or(CodesDown{.gotLeast = got, .gotMost = got});
            down->gotLeast = std::min(down->gotLeast, got);
            down->gotMost = std::max(down->gotMost, got);
        }
    }
    if (down) {
        down->turnovers = is.turnovers - was.turnovers;
        down->expected = filtration::codesDown(down->turnovers, mixingFactorOf(run.setup.tank));
        if (const auto& mixing = run.place.mixing) {
            const auto codes = [&](double k) { return filtration::codesDown(down->turnovers, k); };
            const filtration::Band& k = mixing->captureTimesMixing;
            down->byPast = filtration::Band{codes(k.low), codes(k.best), codes(k.high)};
            down->runs = mixing->runs;
        }
        proof.codesDown = down;
    }
}

bool isRatedFor(const StageRecord& stage, double sizeUm)
{
    return stage.kind != "water" && stage.ratingUm && stage.ratingUm->toDouble() <= sizeUm;
}

/// The latest bottle from `port` at the moment of `other`, counted at `size`, while filtering.
std::optional<std::size_t> atOnceWith(const Proof& proof, std::size_t other, int port, std::size_t size)
{
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < proof.samples.size(); ++i) {
        const SampleSeen& sample = proof.samples[i];
        const bool isThen = std::chrono::abs(sample.at - proof.samples[other].at) <= oneMoment;
        if (sample.drawn->port == port && sample.mode == Mode::Filtering && sample.counts[size] && isThen) {
            found = i;
        }
    }
    return found;
}

std::optional<StageCapture> captureAt(const Proof& proof, const RunState& run, int stage, std::size_t size)
{
    for (std::size_t i = proof.samples.size(); i-- > 0;) {
        const SampleSeen& behind = proof.samples[i];
        const bool isBehind = behind.drawn->port == stage + 1 && behind.mode == Mode::Filtering && behind.counts[size];
        const auto before = isBehind ? atOnceWith(proof, i, stage, size) : std::nullopt;
        if (!before) {
            continue;
        }
        const auto& fed = *proof.samples[*before].counts[size];
        if (const auto capture = filtration::captureOf(fed, *behind.counts[size])) {
            const bool isRated = isRatedFor(run.setup.stages[static_cast<std::size_t>(stage) - 1], sizesUm[size]);
            return StageCapture{stage, size,     *before,
                                i,     *capture, filtration::judgeCapture(*capture, fed.perMl, isRated)};
        }
    }
    return std::nullopt;
}

void judgeCaptures(Proof& proof, const RunState& run)
{
    for (std::size_t stage = 0; stage < run.setup.stages.size(); ++stage) {
        for (std::size_t size = 0; size < sizesUm.size(); ++size) {
            if (const auto capture = captureAt(proof, run, static_cast<int>(stage) + 1, size)) {
                proof.captures.push_back(*capture);
            }
        }
    }
}

std::optional<units::Fraction> waterIn(const std::string& told)
{
    const auto typed = TypedFraction::parse(told);
    return typed ? std::optional(typed->value()) : std::nullopt;
}

/// What of water was told before, of a bottle or of the tank.
std::optional<units::Fraction> waterBefore(const Proof& proof, const RunState& run)
{
    const auto result = proof.before ? proof.samples[*proof.before].result : std::nullopt;
    const auto told = result ? waterIn(result->water) : std::nullopt;
    return !told && run.setup.tank.water ? std::optional(run.setup.tank.water->value()) : told;
}

/// What all water elements of the run can hold, those that went in at changeovers counted.
units::Volume waterCapacity(const RunState& run)
{
    units::Volume capacity{};
    for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
        const StageRecord& stage = run.setup.stages[i];
        if (!stage.waterCapacity) {
            continue;
        }
        int elements = stage.elements;
        for (const Fact& fact : run.facts) {
            const auto* changed = std::get_if<ElementsChanged>(&fact.effective);
            const bool isOfStage = changed != nullptr && changed->stage == static_cast<int>(i) + 1 && !fact.struck;
            elements += isOfStage ? changed->elements : 0;
        }
        capacity = capacity + stage.waterCapacity->value() * static_cast<double>(elements);
    }
    return capacity;
}

void judgeWater(Proof& proof, const RunState& run)
{
    const auto after = latestAfter(
        proof, [](const SampleSeen& sample) { return sample.result && waterIn(sample.result->water); });
    const auto before = waterBefore(proof, run);
    if (!after || !before) {
        return;
    }
    const SampleSeen& sample = proof.samples[*after];
    const double usual = 870.0;
    const auto density = run.fluid ? run.fluid->densityAt(sample.oil) : std::nullopt;
    const auto taken = filtration::waterTaken(run.setup.tank.volume.value(),
                                              density.value_or(usual * units::kilogramPerCubicMetre), *before,
                                              *waterIn(sample.result->water), waterCapacity(run));
    proof.water = taken ? std::optional(*taken) : std::nullopt;
}

Message turnoversSay(const Standing& standing)
{
    const TurnoverBand& band = standing.credit.turnovers;
    return {"path.because.turnovers",
            {{"low", fixed(band.low, 1)}, {"best", fixed(band.best, 1)}, {"high", fixed(band.high, 1)}}};
}

PathStep filtered(const Standing& standing)
{
    constexpr double most = 0.8;
    const TurnoverBand& band = standing.credit.turnovers;
    const auto& sets = standing.diagnosis.sets;
    const bool isDoubted = std::any_of(sets.begin(), sets.end(), [](const JudgedSet& set) { return set.isDoubtful; });
    if (isDoubted || band.high <= 0.0) {
        return {"filtered", StepAnswer::No, {turnoversSay(standing)}};
    }
    return {
        "filtered", band.low >= most * band.high ? StepAnswer::Yes : StepAnswer::CannotTell, {turnoversSay(standing)}};
}

PathStep comparable(const Proof& proof)
{
    if (!proof.comparability) {
        return {"comparable", StepAnswer::CannotTell, {}};
    }
    const Comparability& found = *proof.comparability;
    if (!found.isComparable()) {
        return {"comparable", StepAnswer::No, found.differs};
    }
    return {"comparable", StepAnswer::Yes, found.untold};
}

/// Haze, foam: a counter of blocked light counts water and air too.
PathStep counterTrue(const Proof& proof)
{
    PathStep step{"counter-true", StepAnswer::CannotTell, {}};
    for (const SampleSeen& sample : proof.samples) {
        if (!sample.fooledBy.empty()) {
            step.answer = StepAnswer::No;
            step.because.push_back({"samples.fooled." + std::string(sample.fooledBy), {{"sample", sample.drawn->id}}});
        }
    }
    return step;
}

std::vector<Message::Argument> valuesOf(const StageCapture& capture)
{
    const auto percent = [](double share) { return fixed(100.0 * share, 0); };
    return {{"stage", std::to_string(capture.stage)},
            {"size", fixed(sizesUm[capture.size], 0)},
            {"share", percent(capture.capture.best)},
            {"least", percent(std::max(0.0, capture.capture.low))},
            {"most", percent(capture.capture.high)}};
}

PathStep elementsHold(const Proof& proof)
{
    PathStep step{"elements-hold", StepAnswer::CannotTell, {}};
    bool isAllHeld = !proof.captures.empty();
    bool isLow = false;
    for (const StageCapture& capture : proof.captures) {
        step.because.push_back({"path.because.capture", valuesOf(capture)});
        isAllHeld = isAllHeld && capture.judged == filtration::CaptureJudged::Holds;
        isLow = isLow || capture.judged == filtration::CaptureJudged::Low;
    }
    step.answer = isLow ? StepAnswer::No : isAllHeld ? StepAnswer::Yes : StepAnswer::CannotTell;
    return step;
}

std::vector<Message::Argument> valuesOf(const CodesDown& down)
{
    const std::string got = down.gotLeast == down.gotMost
        ? std::to_string(down.gotMost)
        : std::to_string(down.gotLeast) + "–" + std::to_string(down.gotMost);
    return {{"turnovers", fixed(down.turnovers, 1)}, {"expected", fixed(down.expected, 1)}, {"got", got}};
}

PathStep enough(const Proof& proof)
{
    if (!proof.codesDown || !proof.comparability->isComparable()) {
        return {"enough", StepAnswer::CannotTell, {}};
    }
    const CodesDown& down = *proof.codesDown;
    std::vector<Message> because = {{"path.because.codes", valuesOf(down)}};
    if (down.byPast) {
        because.push_back({"path.because.codes-past",
                           {{"least", fixed(down.byPast->low, 1)},
                            {"most", fixed(down.byPast->high, 1)},
                            {"runs", std::to_string(down.runs)}}});
    }
    return {"enough", down.isShort() ? StepAnswer::No : StepAnswer::Yes, std::move(because)};
}

/// Whether the oil is good where particles are fine and bad where they are coarse: wear, or dirt of the bottle.
PathStep coarseClean(const Proof& proof)
{
    const auto isWithin = [](const std::optional<oil::TargetVerdict>& target) {
        return target && *target != oil::TargetVerdict::NotMet && *target != oil::TargetVerdict::CannotTell;
    };
    const auto& fine = proof.sizes[0].target;
    const auto& coarse = proof.sizes[2].target;
    if (!fine || !coarse || *coarse == oil::TargetVerdict::CannotTell) {
        return {"coarse-clean", StepAnswer::CannotTell, {}};
    }
    return {"coarse-clean", isWithin(fine) && !isWithin(coarse) ? StepAnswer::No : StepAnswer::Yes, {}};
}

bool asksWhy(const Proof& proof)
{
    const bool isOpen = proof.verdict == OilVerdict::NotMet || proof.verdict == OilVerdict::NotProven
        || proof.verdict == OilVerdict::CannotTell;
    return isOpen || (proof.verdict == OilVerdict::NoTarget && proof.codesDown && proof.codesDown->isShort());
}

Finding findingOf(std::string_view id, FindingLevel level, Confidence confidence, RunTime since,
                  std::vector<Message::Argument> values)
{
    const std::string name = "finding." + std::string(id);
    return {.id = id,
            .level = level,
            .since = since,
            .confidence = confidence,
            .headline = {name, values},
            .confirm = {{name + ".confirm", values}},
            .act = {name + ".do", std::move(values)},
            .hazard = {"hazard.site", {}}};
}

Finding codeMet(const Proof& proof, const RunState& run)
{
    const SampleSeen& after = proof.samples[*proof.after];
    const bool isBetter = proof.verdict == OilVerdict::Better;
    Finding finding = findingOf(
        "target-code-met", FindingLevel::Note, isBetter ? Confidence::High : Confidence::Medium, after.toldAt,
        {{"code", after.code->toText()}, {"target", run.setup.target.code}, {"sample", after.drawn->id}});
    finding.because = {{isBetter ? "because.code-better" : "because.code-one-below", {}}};
    return finding;
}

Finding notComparable(const Proof& proof)
{
    const SampleSeen& before = proof.samples[*proof.before];
    const SampleSeen& held = proof.samples[*proof.held];
    Finding finding = findingOf("samples-not-comparable", proof.isMet() ? FindingLevel::Note : FindingLevel::Caution,
                                Confidence::High, std::max(before.toldAt, held.toldAt),
                                {{"first", before.drawn->id}, {"second", held.drawn->id}});
    finding.because = proof.comparability->differs;
    return finding;
}

Finding captureLow(const Proof& proof, const StageCapture& capture)
{
    constexpr double surely = 0.5;
    const RunTime since = std::max(proof.samples[capture.before].toldAt, proof.samples[capture.behind].toldAt);
    Finding finding = findingOf("capture-low", FindingLevel::Caution,
                                capture.capture.high < surely ? Confidence::High : Confidence::Medium, since,
                                valuesOf(capture));
    finding.stage = capture.stage;
    finding.because = {{"path.because.capture", valuesOf(capture)}};
    return finding;
}

/// Told only after so many numbers were to be expected: before, the run is young.
constexpr double expectedAtLeast = 2.0;

bool isStuck(const Proof& proof)
{
    const bool isLow = std::any_of(proof.captures.begin(), proof.captures.end(), [](const StageCapture& capture) {
        return capture.judged == filtration::CaptureJudged::Low;
    });
    return !proof.isMet() && !isLow && proof.codesDown && proof.comparability->isComparable()
        && proof.codesDown->expected >= expectedAtLeast && proof.codesDown->isShort();
}

Finding notGettingCleaner(const Proof& proof)
{
    const SampleSeen& held = proof.samples[*proof.held];
    Finding finding = findingOf("not-getting-cleaner", FindingLevel::Caution, Confidence::Medium,
                                std::max(held.toldAt, proof.samples[*proof.before].toldAt), valuesOf(*proof.codesDown));
    for (const PathStep& step : proof.path) {
        const bool isReason = step.id != "comparable" && step.answer != StepAnswer::CannotTell;
        finding.because.insert(finding.because.end(), step.because.begin(),
                               isReason ? step.because.end() : step.because.begin());
    }
    return finding;
}

} // namespace

std::string_view nameOf(OilVerdict verdict)
{
    constexpr std::array<std::string_view, 8> names = {"no-target", "not-drawn",  "awaited", "cannot-tell",
                                                       "not-met",   "not-proven", "met",     "better"};
    return names.at(static_cast<std::size_t>(verdict));
}

Proof proofOf(const RunState& run, const Standing& standing)
{
    Proof proof;
    proof.samples = samplesOf(run, standing);
    proof.before = beforeOf(proof.samples);
    judgeTarget(proof, targetOf(run));
    chooseHeld(proof);
    judgeSizes(proof);
    judgeCodesDown(proof, run);
    judgeCaptures(proof, run);
    judgeWater(proof, run);
    if (asksWhy(proof)) {
        proof.path = {filtered(standing),  comparable(proof), counterTrue(proof),
                      elementsHold(proof), enough(proof),     coarseClean(proof)};
    }
    return proof;
}

std::vector<Finding> findingsOfSamples(const RunState& run, const Standing& standing)
{
    const bool isAnyCounted = std::any_of(run.facts.begin(), run.facts.end(), [](const Fact& fact) {
        return std::holds_alternative<ResultEntered>(fact.effective) && !fact.struck;
    });
    if (!isAnyCounted) {
        return {};
    }
    const Proof proof = proofOf(run, standing);
    std::vector<Finding> findings;
    if (proof.isMet()) {
        findings.push_back(codeMet(proof, run));
    }
    if (proof.comparability && !proof.comparability->isComparable()) {
        findings.push_back(notComparable(proof));
    }
    for (std::size_t i = 0; i < proof.captures.size(); ++i) {
        const bool isSaid = i > 0 && !findings.empty() && findings.back().stage == proof.captures[i].stage;
        if (proof.captures[i].judged == filtration::CaptureJudged::Low && !isSaid) {
            findings.push_back(captureLow(proof, proof.captures[i]));
        }
    }
    if (isStuck(proof)) {
        findings.push_back(notGettingCleaner(proof));
    }
    return findings;
}

} // namespace loopside::run
