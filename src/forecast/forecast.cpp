// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/forecast.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace loopside::forecast {

namespace {

constexpr int enoughLoadings = 3;         // of the element type; fewer, and every range is "early"
constexpr std::size_t enoughReadings = 3; // where there is no past loading
constexpr double wideRange = 0.5;         // of the median life: 10 to 90 % further apart is "early"
constexpr double earlyPhase = 0.2;
constexpr double rareBeforeTarget = 0.1;
constexpr double timesSoFar = 10.0;
constexpr double fallPart = 0.6; // of the readings before: a reading lower than that ends the curve

Why because(const char* id, const char* sentence)
{
    return {{std::string("forecast.") + id, {}}, sentence};
}

Forecast none(const char* id, const char* sentence)
{
    Forecast result;
    result.why = because(id, sentence);
    return result;
}

Done checkReading(const Reading& reading, double loadBefore)
{
    if (!(std::isfinite(reading.load) && reading.load >= loadBefore)) {
        return fail(Errc::OutOfRange, "the load of a reading has to be finite, 0 or more, and never fall");
    }
    if (!std::isfinite(reading.drop.in(units::pascal))) {
        return fail(Errc::OutOfRange, "the drop of a reading has to be finite");
    }
    const double error = reading.readingError.in(units::pascal);
    if (!(std::isfinite(error) && error > 0.0)) {
        return fail(Errc::OutOfRange, "the reading error has to be finite and above 0");
    }
    if (!(reading.trust > 0.0 && reading.trust <= 1.0)) {
        return fail(Errc::OutOfRange, "the trust in a reading is above 0 to 1");
    }
    return {};
}

bool isZeroOrMore(double value)
{
    return std::isfinite(value) && value >= 0.0;
}

Done checkQuestion(const Question& question)
{
    const double limit = question.rawLimit.in(units::pascal);
    if (!(std::isfinite(limit) && limit > 0.0)) {
        return fail(Errc::OutOfRange, "the limit of the drop has to be finite and above 0");
    }
    if (!(std::isfinite(question.rawPerCorrected) && question.rawPerCorrected > 0.0)) {
        return fail(Errc::OutOfRange, "raw ÷ corrected has to be finite and above 0");
    }
    if (!isZeroOrMore(question.rawPerCorrectedError)) {
        return fail(Errc::OutOfRange, "the error of raw ÷ corrected has to be finite and 0 or more");
    }
    if (!isZeroOrMore(question.standingError.in(units::pascal))) {
        return fail(Errc::OutOfRange, "the standing error has to be finite and 0 or more");
    }
    if (question.rawDropNow && !std::isfinite(question.rawDropNow->in(units::pascal))) {
        return fail(Errc::OutOfRange, "the raw drop has to be finite");
    }
    if (question.bypassSetting && !(question.bypassSetting->in(units::pascal) > 0.0)) {
        return fail(Errc::OutOfRange, "the bypass setting has to be above 0");
    }
    const Ahead& ahead = question.ahead;
    if (!isZeroOrMore(ahead.perSecond) || !isZeroOrMore(ahead.fallPerSecond)
        || !(ahead.perSecondLater >= 0.0 && ahead.perSecondLater <= ahead.perSecond)) {
        return fail(Errc::OutOfRange, "the load goes on at a rate of 0 or more that does not rise");
    }
    if (!isZeroOrMore(question.secondsNow) || (question.secondsMax && !isZeroOrMore(*question.secondsMax))
        || (question.targetLoad && !isZeroOrMore(*question.targetLoad))) {
        return fail(Errc::OutOfRange,
                    "the time now, the longest time told and the target have to be finite, 0 or more");
    }
    return {};
}

Done checkReadings(std::span<const Reading> readings, const Question& question)
{
    double before = 0.0;
    for (const Reading& reading : readings) {
        if (reading.isNewElement) {
            before = 0.0;
        }
        if (Done checked = checkReading(reading, before); !checked) {
            return checked;
        }
        before = reading.load;
    }
    if (question.loadNow && !(std::isfinite(*question.loadNow) && *question.loadNow >= before)) {
        return fail(Errc::OutOfRange, "the load now has to be finite and not before the last reading");
    }
    return {};
}

/// The readings since the last new element.
std::span<const Reading> sinceNewElement(std::span<const Reading> readings)
{
    for (std::size_t i = readings.size(); i > 0; --i) {
        if (readings[i - 1].isNewElement) {
            return readings.subspan(i - 1);
        }
    }
    return readings;
}

double middleOf(std::span<const Reading> readings)
{
    std::vector<double> drops;
    for (const Reading& reading : readings) {
        drops.push_back(reading.drop.in(units::pascal));
    }
    const auto middle = drops.begin() + static_cast<std::ptrdiff_t>(drops.size() / 2);
    std::ranges::nth_element(drops, middle);
    return *middle;
}

/// Whether the last reading lies far below those just before it: torn, in bypass or changed, but not dirt.
bool isFallen(std::span<const Reading> readings)
{
    if (readings.size() < 2) {
        return false;
    }
    const std::size_t count = std::min<std::size_t>(5, readings.size() - 1);
    const double before = middleOf(readings.subspan(readings.size() - 1 - count, count));
    const Reading& last = readings.back();
    const double error = 1.5 * last.readingError.in(units::pascal); // three standard deviations
    const double drop = last.drop.in(units::pascal);
    return drop < fallPart * before && drop + error < before - error;
}

/// Whether the later half lies above the earlier by more than chance: twice its own standard error.
int riseOf(std::span<const Reading> readings)
{
    const std::size_t half = readings.size() / 2;
    double sums[2] = {0.0, 0.0};
    double variance = 0.0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const bool isLate = i >= readings.size() - half;
        if (i >= half && !isLate) {
            continue;
        }
        sums[isLate ? 1 : 0] += readings[i].drop.in(units::pascal) / static_cast<double>(half);
        const double error = readings[i].readingError.in(units::pascal) / 2.0 / static_cast<double>(half);
        variance += error * error;
    }
    const double rise = sums[1] - sums[0];
    const double chance = 2.0 * std::sqrt(variance);
    return rise > chance ? 1 : rise < -chance ? -1 : 0;
}

units::Pressure rawNow(const Reading& last, const Question& question)
{
    return question.rawDropNow.value_or(last.drop * question.rawPerCorrected);
}

/// Why nothing can be said, or nothing if something can.
std::optional<Forecast> refusal(std::span<const Reading> readings, const Question& question, const History& history)
{
    if (readings.empty()) {
        return none("no-reading", "There is no reading yet.");
    }
    if (rawNow(readings.back(), question) >= question.rawLimit) {
        Forecast reached = none("reached", "The limit is reached.");
        reached.state = State::Reached;
        reached.phase = 1.0;
        return reached;
    }
    if (question.bypassSetting && *question.bypassSetting <= question.rawLimit) {
        return none("limit-above-bypass", "The bypass valve opens below the limit: the drop then stands still there.");
    }
    if (question.loadNow.value_or(readings.back().load) <= 0.0) {
        return none("no-load", "Nothing has gone through the element yet.");
    }
    if (isFallen(readings)) {
        return none("fallen", "The drop has fallen: that is not dirt. Find out why first.");
    }
    if (readings.size() >= 4 && riseOf(readings) < 0) {
        return none("falling", "The drop falls, it does not rise: nothing to forecast from.");
    }
    if (history.lives.bells.empty()) {
        if (readings.size() < enoughReadings) {
            return none("too-few-readings", "Too few readings, and no past loading to go by.");
        }
        if (!question.targetLoad && riseOf(readings) <= 0) {
            return none("no-rise", "No rise beyond the gauges' error yet, and no past loading to go by.");
        }
    }
    return std::nullopt;
}

std::vector<Observation> observationsOf(std::span<const Reading> readings, units::Pressure limit)
{
    std::vector<Observation> all;
    for (const Reading& reading : readings) {
        const double error = std::max(reading.readingError / limit / 2.0, 1e-4);
        all.push_back({reading.load, reading.drop / limit, error * error / reading.trust});
    }
    return gathered(all);
}

/// How steeply ln(drop) rises over phase at the end of the nearest family.
double steepnessAtEnd(const History& history)
{
    const Eigen::ArrayXXd& drops = history.families.front().drops;
    const double before = drops.col(phaseSteps * 9 / 10).max(1e-3).log().mean();
    return std::max(-before / 0.1, 0.5);
}

/// The history, or where it knows no lives and there is a target, one whose lives are about twice the target: elements
/// are chosen so that most cleanings do with one set. Common practice, no source; so wide that readings soon outweigh
/// it.
History withLives(const History& history, const Question& question)
{
    constexpr double timesTarget = 2.0;
    constexpr double width = 1.1;      // of the logarithm: from a third to six times the middle, two times in three
    constexpr double roughPart = 0.06; // elements on a cart creep; on simulated runs its share hardly matters, but
                                       // a steep rise is then not taken for a lump that may break off again
    History known = history;
    for (Family& family : known.families) {
        family.weight *= roughPart;
    }
    known.families.push_back(smoothLaws());
    known.lives = {{{std::log(timesTarget * *question.targetLoad), 1.0}},
                   width,
                   0.0,
                   std::log(timesTarget * *question.targetLoad),
                   width};
    return known;
}

void tellQuantiles(Forecast& result, const Posterior& posterior, const Question& question, double now)
{
    const double secondsMax = question.secondsMax.value_or(timesSoFar * question.secondsNow);
    const auto tell = [&](double part, std::optional<double>& load, std::optional<double>& seconds) {
        const double at = quantile(posterior, part);
        const auto added = secondsToAdd(question.ahead, at - now, std::max(secondsMax - question.secondsNow, 0.0));
        load = at;
        if (added) {
            seconds = question.secondsNow + *added;
        }
    };
    tell(0.1, result.loads.p10, result.seconds.p10);
    tell(0.5, result.loads.p50, result.seconds.p50);
    tell(0.9, result.loads.p90, result.seconds.p90);
}

void tellState(Forecast& result, int ofType)
{
    const double spread = (*result.loads.p90 - *result.loads.p10) / *result.loads.p50;
    result.state = State::Early;
    if (ofType < enoughLoadings) {
        result.why = because("few-past-loadings", "Too few past loadings of such elements to be sure of the range.");
    } else if (spread > wideRange) {
        result.why = because("wide", "The range is still wide.");
    } else if (*result.phase < earlyPhase) {
        result.why = because("early", "The loading has only begun.");
    } else {
        result.state = State::Forecast;
        result.why = because("from-past-loadings", "From the readings and past loadings of such elements.");
        result.why.say.arguments = {{"loadings", std::to_string(ofType)}};
    }
    if (result.pBeforeTarget && *result.pBeforeTarget <= rareBeforeTarget && ofType >= enoughLoadings) {
        result.state = State::NotBeforeTarget;
        result.why = because("not-before-target", "The target comes first.");
    }
}

} // namespace

units::Pressure correctedLimit(const Question& question)
{
    return question.rawLimit / question.rawPerCorrected;
}

Result<Forecast> forecast(std::span<const Reading> readings, const Question& question, const History& history)
{
    if (Done checked = checkQuestion(question); !checked) {
        return fail(checked.error());
    }
    if (Done checked = checkReadings(readings, question); !checked) {
        return fail(checked.error());
    }
    const std::span<const Reading> current = sinceNewElement(readings);
    if (const auto refused = refusal(current, question, history)) {
        return *refused;
    }
    const double now = question.loadNow.value_or(current.back().load);
    const units::Pressure limit = correctedLimit(question);
    const Circumstances circumstances{now, question.standingError / limit / 2.0, question.isUsed};
    const bool isLifeGuessed = history.lives.bells.empty() && question.targetLoad.value_or(0.0) > 0.0;
    Posterior lives = posterior(observationsOf(current, limit), circumstances,
                                isLifeGuessed ? withLives(history, question) : history);
    if (question.rawPerCorrectedError > 0.0) {
        lives = smeared(lives, question.rawPerCorrectedError / steepnessAtEnd(history));
    }
    Forecast result;
    result.pastLoadings = history.loadings + history.cutShort;
    tellQuantiles(result, lives, question, now);
    result.phase = std::clamp(now / *result.loads.p50, 0.0, 1.0);
    if (question.targetLoad) {
        result.pBeforeTarget = *question.targetLoad <= now ? 0.0 : probabilityBy(lives, *question.targetLoad);
    }
    tellState(result, history.ofType);
    result.lives = std::move(lives);
    return result;
}

} // namespace loopside::forecast
