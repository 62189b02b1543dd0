// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "cli/series_file.h"
#include "cli/series_loading.h"
#include "forecast/forecast.h"
#include "units/typed.h"
#include "words/words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <map>
#include <string_view>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using forecast::Forecast;
using forecast::State;
using words::Words;
using PressureUnit = units::NamedUnit<units::Pressure>;

constexpr std::size_t faultsTold = 10;
constexpr double secondsTold = 1e9;      // thirty years: no end that is told at all is kept back
constexpr double partOfLimit = 1 / 40.0; // graduation where the series shows no step: that of a 20 psi limit read to ½

/// What was asked, read.
struct Asked
{
    const PressureUnit* unit = nullptr;
    double limit = 0.0;                    ///< In the unit.
    std::optional<double> graduation = {}; ///< In the unit.
    forecast::Kinship kinship = forecast::Kinship::SameTank;
    int every = 1;
    SeriesFile readings;
    SeriesFile history;
    std::optional<double> referenceFlow = {};
};

Result<double> aboveZeroNumber(std::string_view option, const std::string& text)
{
    const auto number = numberOf(option, text);
    if (number && !(*number > 0.0)) {
        return fail(at(option, {Errc::OutOfRange, "it must be above zero, not " + text}));
    }
    return number;
}

Result<forecast::Kinship> kinshipOf(const std::string& text)
{
    static const std::map<std::string, forecast::Kinship> known = {{"tank", forecast::Kinship::SameTank},
                                                                   {"type", forecast::Kinship::SameType},
                                                                   {"kind", forecast::Kinship::SameKind}};
    const auto found = known.find(text);
    if (found == known.end()) {
        return fail(Errc::NotFound, "--kin: \"" + quotable(text) + "\" is not known; known are tank, type, kind");
    }
    return found->second;
}

Done readNumbers(const ForecastOptions& options, Asked& asked)
{
    const auto unit = units::unitNamed<units::Pressure>(options.unit);
    if (!unit) {
        return fail(at("--unit", unit.error()));
    }
    asked.unit = *unit;
    const auto limit = aboveZeroNumber("--limit", options.limit);
    if (!limit) {
        return fail(limit.error());
    }
    asked.limit = *limit;
    if (!options.graduation.empty()) {
        const auto graduation = aboveZeroNumber("--graduation", options.graduation);
        if (!graduation) {
            return fail(graduation.error());
        }
        asked.graduation = *graduation;
    }
    const auto every = wholeNumberOf("--every", options.every);
    if (!every || *every == 0) {
        return fail(every ? at("--every", {Errc::OutOfRange, "it must be 1 or more"}) : every.error());
    }
    asked.every = options.lastOnly ? std::numeric_limits<int>::max() : *every;
    return kinshipOf(options.kin).transform([&](forecast::Kinship kinship) { asked.kinship = kinship; });
}

bool hasFlow(const SeriesFile& file)
{
    return std::ranges::any_of(
        file.runs, [](const SeriesRun& run) { return !run.readings.empty() && run.readings.front().flow.has_value(); });
}

void forgetFlow(SeriesFile& file)
{
    for (SeriesRun& run : file.runs) {
        for (SeriesReading& reading : run.readings) {
            reading.flow.reset();
        }
    }
}

Done readReference(const ForecastOptions& options, Asked& asked)
{
    if (options.ignoreFlow) {
        forgetFlow(asked.readings);
        forgetFlow(asked.history);
    }
    const bool isFlowTold = hasFlow(asked.readings);
    if (!options.history.empty() && isFlowTold != hasFlow(asked.history)) {
        return fail(Errc::Conflict,
                    (isFlowTold ? options.history : options.readings)
                        + ": there is no column \"flow\", but the other file has one; give both, or --ignore-flow");
    }
    if (isFlowTold) {
        asked.referenceFlow = usualFlow(options.history.empty() ? asked.readings : asked.history);
        if (!asked.referenceFlow) {
            return fail(Errc::OutOfRange, options.readings + ", column flow: no flow is above 0");
        }
    }
    return {};
}

Result<Asked> askedFrom(const ForecastOptions& options)
{
    Asked asked;
    const auto into = [](SeriesFile& place) { return [&place](SeriesFile&& file) { place = std::move(file); }; };
    const Done read = readNumbers(options, asked)
                          .and_then([&] { return readSeries(options.readings, SeriesKind::Readings); })
                          .transform(into(asked.readings))
                          .and_then([&] {
                              return options.history.empty() ? Result<SeriesFile>(SeriesFile{})
                                                             : readSeries(options.history, SeriesKind::History);
                          })
                          .transform(into(asked.history))
                          .and_then([&] { return readReference(options, asked); });
    if (!read) {
        return fail(read.error());
    }
    return asked;
}

/// The finest step between drops that differ.
std::optional<double> finestStep(const SeriesFile& file)
{
    std::vector<double> drops;
    for (const SeriesRun& run : file.runs) {
        for (const SeriesReading& reading : run.readings) {
            drops.push_back(reading.drop);
        }
    }
    std::ranges::sort(drops);
    std::optional<double> finest;
    for (std::size_t i = 1; i < drops.size(); ++i) {
        const double step = drops[i] - drops[i - 1];
        if (step > 1e-9 * std::abs(drops[i]) && step < finest.value_or(std::numeric_limits<double>::infinity())) {
            finest = step; // smaller ones are the rounding of binary numbers
        }
    }
    return finest;
}

/// Half the graduation (k = 2): as told, else the finest step of the readings, at most a fortieth of the limit.
units::Pressure errorLeast(const Asked& asked)
{
    const double most = partOfLimit * asked.limit;
    const double graduation = asked.graduation.value_or(std::min(finestStep(asked.readings).value_or(most), most));
    return {graduation / 2.0, asked.unit->unit};
}

/// The past loadings by their runs.
using Past = std::vector<std::pair<std::string, forecast::PastLoading>>;

Past pastIn(const Asked& asked)
{
    Past past;
    for (const SeriesRun& run : asked.history.runs) {
        if (!run.hasFault) {
            past.emplace_back(run.name, pastLoadingOf(run, asked.unit->unit, asked.referenceFlow, asked.kinship));
        }
    }
    return past;
}

bool holds(const Past& past, const std::string& run)
{
    return std::ranges::any_of(past, [&](const auto& one) { return one.first == run; });
}

/// What is learned from all but `run`: what is not over yet teaches nothing.
Result<forecast::History> learnedWithout(const std::string& run, const Past& past, const Asked& asked)
{
    std::vector<forecast::PastLoading> others;
    for (const auto& [name, loading] : past) {
        if (name != run) {
            others.push_back(loading);
        }
    }
    return forecast::learn(others, {asked.limit, asked.unit->unit});
}

Result<Forecast> forecastNow(const GrowingLoading& loading, const SeriesReading& latest, const Asked& asked,
                             const forecast::History& history)
{
    const FlowAxis& axis = loading.axis();
    const units::Pressure raw(latest.drop, asked.unit->unit);
    const units::Pressure limit(asked.limit, asked.unit->unit);
    if (!axis.isFlowing() && raw < limit) {
        Forecast none;
        none.why = {{"forecast.no-flow", {}}, "Nothing flows: the drop says nothing of dirt."};
        return none;
    }
    const forecast::Question question{.rawLimit = limit,
                                      .rawDropNow = raw,
                                      .standingError = {},
                                      .loadNow = axis.load(),
                                      .secondsNow = latest.seconds,
                                      .ahead = {axis.usualShare(), axis.usualShare(), 0.0},
                                      .secondsMax = secondsTold};
    return forecast::forecast(loading.readings(), question, history);
}

std::string_view nameOf(State state)
{
    switch (state) {
    case State::Early:
        return "early";
    case State::Forecast:
        return "forecast";
    case State::Reached:
        return "reached";
    case State::NotBeforeTarget:
        return "not-before-target";
    case State::None:
        break;
    }
    return "none";
}

/// `number` with as many digits as it needs, at most six.
std::string shortest(double number)
{
    std::array<char, 32> text{};
    const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::general,
                                            6);
    return {text.data(), end};
}

/// Hours, minutes and seconds, such as "0:04:10"; a dash where there is no time.
std::string clockText(std::optional<double> seconds)
{
    if (!seconds) {
        return "–";
    }
    const long long whole = std::llround(*seconds);
    const auto two = [](long long number) { return (number < 10 ? "0" : "") + std::to_string(number); };
    return std::to_string(whole / 3600) + ":" + two(whole / 60 % 60) + ":" + two(whole % 60);
}

/// The run as a number where it is written like one, else as text.
Json runJson(const std::string& name)
{
    int number = 0;
    const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
    const bool isNumber = error == std::errc() && std::to_string(number) == name;
    return isNumber ? Json(number) : Json(name);
}

Json numberOrNull(std::optional<double> number)
{
    return number ? Json(*number) : Json();
}

/// Prints what was forecast after a reading; which of them is the caller's.
class Teller
{
public:
    Teller(const Words& words, const Asked& asked, bool isJson, std::ostream& out)
        : words_{words}, asked_{asked}, isJson_{isJson}, out_{out}
    {
    }

    void begin(const std::string& run, bool isInHistory)
    {
        if (isJson_) {
            return;
        }
        out_ << words_.say({"forecast.series.run", {{"run", run}, {"limit", pressure(asked_.limit)}}}) << "\n";
        if (isInHistory) {
            out_ << words_.say("forecast.series.not-from-itself") << "\n";
        }
        row({words_.say("forecast.series.time"), "ΔP [" + std::string(asked_.unit->symbol) + "]", "10 %", "50 %",
             "90 %", words_.say("forecast.series.state"), words_.say("forecast.series.why")});
    }

    void tell(const std::string& run, const SeriesReading& reading, const Forecast& told)
    {
        if (isJson_) {
            const Json object = {{"run", runJson(run)},
                                 {"t_s", reading.seconds},
                                 {"state", nameOf(told.state)},
                                 {"why", words_.say(told.why.say)},
                                 {"why_id", told.why.say.id.substr(std::string_view("forecast.").size())},
                                 {"t10_s", numberOrNull(told.seconds.p10)},
                                 {"t50_s", numberOrNull(told.seconds.p50)},
                                 {"t90_s", numberOrNull(told.seconds.p90)},
                                 {"phase", numberOrNull(told.phase)},
                                 {"past_loadings", told.pastLoadings}};
            out_ << object.dump() << "\n";
            return;
        }
        row({clockText(reading.seconds), shortest(reading.drop), clockText(told.seconds.p10),
             clockText(told.seconds.p50), clockText(told.seconds.p90),
             words_.say("forecast.state." + std::string(nameOf(told.state))), words_.say(told.why.say)});
    }

    /// One sentence on the last of a run.
    void end(const Forecast& last)
    {
        if (isJson_) {
            return;
        }
        const Message::Argument limit = {"limit", pressure(asked_.limit)};
        if (last.state == State::Reached) {
            out_ << words_.say({"forecast.series.reached", {limit}});
        } else if (!last.seconds.p10 || !last.seconds.p50 || !last.seconds.p90) {
            out_ << words_.say({"forecast.series.none", {limit, {"why", words_.say(last.why.say)}}});
        } else {
            out_ << words_.say({last.state == State::Early ? "forecast.series.early" : "forecast.series.range",
                                {limit,
                                 {"low", clockText(last.seconds.p10)},
                                 {"middle", clockText(last.seconds.p50)},
                                 {"high", clockText(last.seconds.p90)},
                                 {"why", words_.say(last.why.say)}}});
        }
        out_ << "\n\n";
    }

private:
    [[nodiscard]] std::string pressure(double number) const
    {
        return shortest(number) + " " + std::string(asked_.unit->symbol);
    }

    void row(const std::array<std::string, 7>& cells)
    {
        constexpr std::array<std::size_t, 7> widths = {10, 11, 10, 10, 10, 22, 0};
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto signs = static_cast<std::size_t>(std::ranges::count_if(
                cells[i], [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
            const std::string fill(widths[i] > signs ? widths[i] - signs : 0, ' ');
            const bool isNumber = i < 5;
            out_ << (isNumber ? fill + cells[i] + "  " : cells[i] + fill);
        }
        out_ << "\n";
    }

    const Words& words_;
    const Asked& asked_;
    bool isJson_;
    std::ostream& out_;
};

Done tellRun(const SeriesRun& run, const Asked& asked, units::Pressure error, const forecast::History& history,
             Teller& teller)
{
    GrowingLoading loading(asked.unit->unit, asked.referenceFlow, error);
    Forecast last;
    for (std::size_t i = 0; i < run.readings.size(); ++i) {
        loading.add(run.readings[i]);
        const bool isAsked = (i + 1) % static_cast<std::size_t>(asked.every) == 0 || i + 1 == run.readings.size();
        if (isAsked) {
            auto told = forecastNow(loading, run.readings[i], asked, history);
            if (!told) {
                return fail(told.error().code, "run " + quotable(run.name) + ": " + told.error().sentence);
            }
            teller.tell(run.name, run.readings[i], *told);
            last = *std::move(told);
        }
    }
    teller.end(last);
    return {};
}

/// Each run that could be read, in the order of the file.
Done tellRuns(const Asked& asked, Teller& teller)
{
    const units::Pressure error = errorLeast(asked);
    const Past past = pastIn(asked);
    const auto fromAll = learnedWithout("", past, asked);
    if (!fromAll) {
        return fail(fromAll.error());
    }
    for (const SeriesRun& run : asked.readings.runs) {
        if (run.readings.empty()) {
            continue;
        }
        const bool isInHistory = holds(past, run.name);
        const auto history = isInHistory ? learnedWithout(run.name, past, asked) : fromAll;
        if (!history) {
            return fail(history.error());
        }
        teller.begin(run.name, isInHistory);
        if (const Done told = tellRun(run, asked, error, *history, teller); !told) {
            return told;
        }
    }
    return {};
}

/// The faults of both files as one failure, a line each.
Done faultsIn(const Asked& asked)
{
    std::vector<std::string> faults = asked.readings.faults;
    faults.insert(faults.end(), asked.history.faults.begin(), asked.history.faults.end());
    if (faults.empty()) {
        return {};
    }
    std::string text;
    for (std::size_t i = 0; i < std::min(faults.size(), faultsTold); ++i) {
        text += (i == 0 ? "" : "\n") + faults[i];
    }
    if (faults.size() > faultsTold) {
        text += "\nand " + std::to_string(faults.size() - faultsTold) + " more runs with a fault";
    }
    return fail(Errc::Malformed, text);
}

} // namespace

Done forecastSeries(const ForecastOptions& options, std::ostream& out)
{
    const auto words = Words::in(options.language);
    if (!words) {
        return fail(at("--language", words.error()));
    }
    const auto asked = askedFrom(options);
    if (!asked) {
        return fail(asked.error());
    }
    Teller teller(*words, *asked, options.json, out);
    return tellRuns(*asked, teller).and_then([&] { return faultsIn(*asked); });
}

} // namespace loopside::cli
