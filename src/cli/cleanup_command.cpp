// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "filtration/clean_up.h"
#include "filtration/clean_up_learned.h"
#include "filtration/turnover.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using filtration::LearnedTank;
using filtration::PerSize;
using oil::CleanlinessCode;

constexpr std::array<std::string_view, 3> sizeNames = {"4", "6", "14"};

/// A code, and at how many turnovers it was counted.
struct CodeSeen
{
    double turnovers;
    CleanlinessCode code;
};

/// Everything that was typed, read.
struct Asked
{
    CleanlinessCode from;
    CleanlinessCode to;
    units::Volume volume;
    units::Flow flow;
    PerSize<filtration::MixedTank> tank;
    std::optional<double> after;
    std::vector<CodeSeen> counts;
};

/// What the counts tell of one size.
struct Learned
{
    std::optional<LearnedTank> tank = {};
    std::optional<filtration::Reach> reach = {};
    std::string why = {};
};

Result<CleanlinessCode> codeOf(std::string_view option, const std::string& text)
{
    auto code = CleanlinessCode::parse(text);
    if (!code) {
        return fail(at(option, code.error()));
    }
    return code;
}

Result<double> captureFrom(const CleanUpOptions& options)
{
    std::vector<double> betas;
    for (const std::string& text : options.betas) {
        const auto beta = numberOf("--beta", text);
        if (!beta) {
            return fail(beta.error());
        }
        if (!filtration::captureTimesMixing(std::vector{*beta}, 1.0)) {
            return fail(Errc::OutOfRange,
                        "--beta: the filtration ratio must be 1 or more, not " + quotable(text) + ".");
        }
        betas.push_back(*beta);
    }
    if (betas.empty()) {
        betas.push_back(std::numeric_limits<double>::infinity()); // all that passes is captured
    }
    const auto mixing = options.mixing.empty() ? Result<double>(0.7) : numberOf("--mixing", options.mixing);
    if (!mixing) {
        return fail(mixing.error());
    }
    auto capture = filtration::captureTimesMixing(betas, *mixing);
    if (!capture) {
        return fail(at("--mixing", capture.error()));
    }
    return capture;
}

/// k for every size, and the floor as the middle of each number's range.
Result<PerSize<filtration::MixedTank>> tankFrom(const CleanUpOptions& options)
{
    const auto capture = captureFrom(options);
    if (!capture) {
        return fail(capture.error());
    }
    PerSize<filtration::MixedTank> tank;
    tank.fill({*capture, 0.0});
    if (options.floor.empty()) {
        return tank;
    }
    const auto floor = codeOf("--floor", options.floor);
    if (!floor) {
        return fail(floor.error());
    }
    for (std::size_t i = 0; i < tank.size(); ++i) {
        if (const auto seen = filtration::countSeen(0.0, floor->scales()[i])) {
            tank[i].floorPerMl = seen->perMl;
        }
    }
    return tank;
}

Result<CodeSeen> codeSeenIn(const std::string& text)
{
    const auto colon = text.find(':');
    if (colon == std::string::npos) {
        return fail(Errc::Malformed,
                    "--count: \"" + quotable(text) + "\" must be turnovers, a colon and a code, such as 2.5:19/17/14.");
    }
    const auto turnovers = numberOf("--count", text.substr(0, colon));
    if (!turnovers) {
        return fail(turnovers.error());
    }
    if (!(*turnovers > 0.0)) {
        return fail(Errc::OutOfRange, "--count: the turnovers must be above zero, not " + quotable(text) + ".");
    }
    auto code = codeOf("--count", text.substr(colon + 1));
    if (!code) {
        return fail(code.error());
    }
    return CodeSeen{*turnovers, *code};
}

Result<std::optional<double>> afterFrom(const CleanUpOptions& options)
{
    if (options.after.empty()) {
        return std::optional<double>();
    }
    const auto after = numberOf("--after", options.after);
    if (!after) {
        return fail(after.error());
    }
    if (!(*after >= 0.0)) {
        return fail(Errc::OutOfRange, "--after: the turnovers must be zero or more, not " + options.after + ".");
    }
    return std::optional(*after);
}

Result<std::vector<CodeSeen>> countsFrom(const CleanUpOptions& options)
{
    std::vector<CodeSeen> counts;
    for (const std::string& text : options.counts) {
        const auto seen = codeSeenIn(text);
        if (!seen) {
            return fail(seen.error());
        }
        counts.push_back(*seen);
    }
    return counts;
}

Result<Asked> askedFrom(const CleanUpOptions& options)
{
    const auto from = codeOf("--from", options.from);
    const auto to = codeOf("--to", options.to);
    const auto volume = aboveZero<units::Volume>("--volume", options.volume);
    const auto flow = aboveZero<units::Flow>("--flow", options.flow);
    const auto tank = tankFrom(options);
    const auto after = afterFrom(options);
    const auto counts = countsFrom(options);
    const auto* const fault = !from ? &from.error()
        : !to                       ? &to.error()
        : !volume                   ? &volume.error()
        : !flow                     ? &flow.error()
        : !tank                     ? &tank.error()
        : !after                    ? &after.error()
        : !counts                   ? &counts.error()
                                    : nullptr;
    if (fault != nullptr) {
        return fail(*fault);
    }
    return Asked{*from, *to, *volume, *flow, *tank, *after, *counts};
}

/// What the code at the start and those during the run tell of one size.
Learned learnedAt(std::size_t size, const Asked& asked)
{
    std::vector<filtration::CountSeen> seen;
    std::vector<CodeSeen> codes = {{0.0, asked.from}};
    codes.insert(codes.end(), asked.counts.begin(), asked.counts.end());
    for (const CodeSeen& one : codes) {
        if (const auto count = filtration::countSeen(one.turnovers, one.code.scales()[size])) {
            seen.push_back(*count);
        }
    }
    auto tank = LearnedTank::from(seen);
    if (!tank) {
        return {{}, {}, tank.error().sentence};
    }
    Learned learned{*std::move(tank), {}, {}};
    const auto limit = asked.to.scales()[size].countRange();
    if (limit && limit->upToPerMl) {
        learned.reach = learned.tank->turnoversTo(*limit->upToPerMl).value();
    }
    return learned;
}

Json bandJson(const filtration::Band& band)
{
    return {{"low", band.low}, {"best", band.best}, {"high", band.high}};
}

Json orNull(std::optional<double> number)
{
    return number ? Json(*number) : Json();
}

Json learnedJson(const Learned& learned, std::string_view size)
{
    Json object = {{"size_um", std::stoi(std::string(size))},
                   {"capture_times_mixing", Json()},
                   {"floor_per_ml", Json()},
                   {"floor_told", Json()},
                   {"turnovers", Json()},
                   {"never", Json()},
                   {"why", learned.why.empty() ? Json() : Json(learned.why)}};
    if (learned.tank) {
        object["capture_times_mixing"] = bandJson(learned.tank->captureTimesMixing());
        object["floor_per_ml"] = bandJson(learned.tank->floorPerMl());
        object["floor_told"] = learned.tank->isFloorTold();
    }
    if (learned.reach) {
        object["turnovers"] = {{"low", orNull(learned.reach->low)},
                               {"best", orNull(learned.reach->best)},
                               {"high", orNull(learned.reach->high)}};
        object["never"] = learned.reach->neverShare;
    }
    return object;
}

std::optional<double> runSeconds(const filtration::WayToCode& way, const Asked& asked)
{
    if (!way.turnovers) {
        return std::nullopt;
    }
    return filtration::runTime(*way.turnovers, asked.volume, asked.flow).value().in(units::second);
}

Json wayJson(const filtration::WayToCode& way, const Asked& asked)
{
    Json sizes = Json::array();
    for (std::size_t i = 0; i < way.sizes.size(); ++i) {
        if (way.sizes[i]) {
            sizes.push_back({{"size_um", std::stoi(std::string(sizeNames.at(i)))},
                             {"turnovers", orNull(way.sizes[i]->turnovers)},
                             {"why", way.sizes[i]->why.empty() ? Json() : Json(way.sizes[i]->why)}});
        }
    }
    return {{"capture_times_mixing", asked.tank[0].captureTimesMixing},
            {"turnovers", orNull(way.turnovers)},
            {"run_s", orNull(runSeconds(way, asked))},
            {"why", way.why.empty() ? Json() : Json(way.why)},
            {"never_passed", way.turnovers ? Json(filtration::neverPassed(*way.turnovers)) : Json()},
            {"sizes", sizes}};
}

void tellWay(const filtration::WayToCode& way, const Asked& asked, const CleanUpOptions& options, std::ostream& out)
{
    out << "capture times mixing " << fixed(asked.tank[0].captureTimesMixing, 3)
        << (options.betas.empty() ? ", all that passes assumed captured" : "")
        << (options.mixing.empty() ? ", mixing 0.7 assumed" : "") << "\n";
    for (std::size_t i = 0; i < way.sizes.size(); ++i) {
        if (way.sizes[i]) {
            out << "at " << sizeNames.at(i) << " µm  "
                << (way.sizes[i]->turnovers ? fixed(*way.sizes[i]->turnovers, 1) + " turnovers" : way.sizes[i]->why)
                << "\n";
        }
    }
    if (const auto seconds = runSeconds(way, asked)) {
        out << asked.from.toText() << " to " << asked.to.toText() << ": " << fixed(*way.turnovers, 1) << " turnovers, "
            << fixed(*seconds / 60.0, 0) << " min; "
            << (*way.turnovers > 0.0 ? "then draw a sample: only a count tells"
                                     : "the first code is at the target already, or the two are swapped")
            << "\n";
    } else {
        out << asked.from.toText() << " to " << asked.to.toText() << ": cannot be reached. " << way.why << "\n";
    }
}

void tellLearned(const Learned& learned, std::string_view size, std::ostream& out)
{
    out << "by the counts, at " << size << " µm  ";
    if (!learned.tank) {
        out << "cannot tell: " << learned.why << "\n";
        return;
    }
    const auto capture = learned.tank->captureTimesMixing();
    const auto floor = learned.tank->floorPerMl();
    out << "capture times mixing " << fixed(capture.low, 2) << " to " << fixed(capture.high, 2) << ", floor "
        << (learned.tank->isFloorTold() ? fixed(floor.low, 1) + " to " : "not told, at most ") << fixed(floor.high, 1)
        << " per mL\n";
    if (learned.reach) {
        const auto bound = [](std::optional<double> turnovers) {
            return turnovers ? fixed(*turnovers, 1) : std::string("never");
        };
        out << "    target at " << bound(learned.reach->low) << " to " << bound(learned.reach->high)
            << " turnovers from the start, best " << bound(learned.reach->best) << "; never in "
            << fixed(learned.reach->neverShare * 100.0, 0) << " % of what is likely\n";
    }
}

} // namespace

Done cleanUp(const CleanUpOptions& options, std::ostream& out)
{
    const auto asked = askedFrom(options);
    if (!asked) {
        return fail(asked.error());
    }
    const auto way = filtration::turnoversToCode(asked->from, asked->to, asked->tank);
    if (!way) {
        return fail(at("--to", way.error())); // the rest was checked
    }
    Json object = wayJson(*way, *asked);
    if (!options.json) {
        tellWay(*way, *asked, options, out);
    }
    object["code_after"] = Json();
    if (asked->after) {
        const auto code = filtration::codeAfter(asked->from, *asked->after, asked->tank).value();
        object["code_after"] = {{"turnovers", *asked->after}, {"from", code.from.toText()}, {"to", code.to.toText()}};
        if (!options.json) {
            out << "after " << fixed(*asked->after, 1) << " turnovers: " << code.from.toText() << " to "
                << code.to.toText() << " expected, not counted\n";
        }
    }
    object["learned"] = Json::array();
    for (std::size_t i = 0; i < sizeNames.size() && !asked->counts.empty(); ++i) {
        const Learned learned = learnedAt(i, *asked);
        object["learned"].push_back(learnedJson(learned, sizeNames.at(i)));
        if (!options.json) {
            tellLearned(learned, sizeNames.at(i), out);
        }
    }
    if (options.json) {
        out << object.dump() << "\n";
    }
    return {};
}

} // namespace loopside::cli
