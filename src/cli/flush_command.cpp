// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "filtration/flush.h"
#include "filtration/suits.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using filtration::Flush;
using filtration::Suit;
using units::Fraction;
using units::litre;
using units::Volume;

/// Everything that was typed, read.
struct Asked
{
    Volume left;
    Volume batch;
    std::optional<int> batches = {};
    std::optional<Fraction> wanted = {};
    std::optional<Volume> tank = {};
    std::optional<Volume> holdUp = {};
};

/// What flushing comes to; without a flush, why none is told.
struct Answer
{
    std::optional<Flush> flush = {};
    std::string why = {};
    std::vector<Suit> suits = {};
};

template<class T>
Result<std::optional<T>> ifGiven(Result<T> (*read)(std::string_view, std::string_view), std::string_view option,
                                 const std::string& text)
{
    if (text.empty()) {
        return std::optional<T>();
    }
    return read(option, text).transform([](const T& value) { return std::optional(value); });
}

Done checkTogether(const FlushOptions& options)
{
    if (!options.batches.empty() && !options.wanted.empty()) {
        return fail(Errc::Conflict, "--wanted: it cannot be given together with --batches.");
    }
    if (options.from.empty() != options.to.empty()) {
        return fail(Errc::Conflict,
                    options.from.empty() ? "--from: it is needed where --to is given."
                                         : "--to: it is needed where --from is given.");
    }
    if (options.tank.empty() != options.holdUp.empty()) {
        return fail(Errc::Conflict,
                    options.tank.empty() ? "--tank: it is needed where --hold-up is given."
                                         : "--hold-up: it is needed where --tank is given.");
    }
    return {};
}

Result<Asked> askedFrom(const FlushOptions& options)
{
    if (auto checked = checkTogether(options); !checked) {
        return fail(checked.error());
    }
    Asked asked;
    const auto volume = [](std::string_view option, const std::string& text, auto& into) -> Done {
        return ifGiven<Volume>(aboveZero<Volume>, option, text).transform([&](const auto& read) {
            into = read.value_or(Volume{});
        });
    };
    const auto part = [&]() -> Done {
        return ifGiven<Fraction>(aboveZero<Fraction>, "--wanted", options.wanted).transform([&](const auto& read) {
            asked.wanted = read;
        });
    };
    const auto count = [&]() -> Done {
        return ifGiven<int>(wholeNumberOf, "--batches", options.batches).transform([&](const auto& read) {
            asked.batches = read;
        });
    };
    Done read = volume("--left", options.left, asked.left)
                    .and_then([&] { return volume("--batch", options.batch, asked.batch); })
                    .and_then(part)
                    .and_then(count);
    if (read && !options.tank.empty()) {
        read = volume("--tank", options.tank, asked.tank).and_then([&] {
            return volume("--hold-up", options.holdUp, asked.holdUp);
        });
    }
    return read.transform([&] { return asked; });
}

/// What flushing comes to: for the batches or the rest that was asked for, else for what the fluids ask for.
Result<Answer> answerTo(const Asked& asked, const FlushOptions& options)
{
    Answer answer;
    if (!options.from.empty()) {
        // without volumes only the verdict: the batches here are those that were asked for
        auto suits = filtration::cartFluidSuits({options.from, options.to, {}, {}, {}});
        if (!suits) {
            return fail(suits.error());
        }
        answer.suits = *std::move(suits);
        if (std::any_of(answer.suits.begin(), answer.suits.end(),
                        [](const Suit& suit) { return suit.level == filtration::SuitLevel::Conflict; })) {
            answer.why = std::string(filtration::defaultRest(filtration::fluidNamed(options.from).family,
                                                             filtration::fluidNamed(options.to).family)
                                         .why);
            return answer;
        }
    }
    if (asked.batches) {
        return filtration::residualAfter(asked.left, asked.batch, *asked.batches).transform([&](Fraction rest) {
            answer.flush = Flush{asked.batch, *asked.batches, *asked.batches * asked.batch, rest};
            return answer;
        });
    }
    std::optional<Fraction> wanted = asked.wanted ? asked.wanted : 1.0 * units::percent;
    if (!asked.wanted && !options.from.empty()) {
        const auto rest = filtration::defaultRest(filtration::fluidNamed(options.from).family,
                                                  filtration::fluidNamed(options.to).family);
        wanted = rest.rest;
        answer.why = rest.rest ? "" : std::string(rest.why);
    }
    if (!wanted) {
        return answer;
    }
    const auto flush = filtration::flushTo(*wanted, asked.left, asked.batch);
    if (!flush) {
        return fail(at(asked.wanted ? "--wanted" : "--batch", flush.error()));
    }
    answer.flush = *flush;
    return answer;
}

Json suitsJson(const std::vector<Suit>& suits)
{
    Json all = Json::array();
    for (const Suit& suit : suits) {
        all.push_back({{"level", nameOf(suit.level)},
                       {"subject", nameOf(suit.subject)},
                       {"sentence", suit.sentence},
                       {"source", suit.source}});
    }
    return all;
}

Json answerJson(const Asked& asked, const Answer& answer)
{
    Json object = {{"left_l", asked.left.in(litre)},
                   {"batch_l", asked.batch.in(litre)},
                   {"batches", answer.flush ? Json(answer.flush->batches) : Json()},
                   {"total_l", answer.flush ? Json(answer.flush->total.in(litre)) : Json()},
                   {"residual", answer.flush ? Json(answer.flush->residual.in(units::one)) : Json()},
                   {"why", answer.why.empty() ? Json() : Json(answer.why)},
                   {"carry_over", Json()},
                   {"carry_over_after", Json()},
                   {"suits", suitsJson(answer.suits)}};
    if (asked.tank) {
        const double share = *asked.holdUp / *asked.tank;
        object["carry_over"] = share;
        object["carry_over_after"] = answer.flush ? Json(share * answer.flush->residual.in(units::one)) : Json();
    }
    return object;
}

void tellAnswer(const Asked& asked, const Answer& answer, std::ostream& out)
{
    for (const Suit& suit : answer.suits) {
        out << nameOf(suit.level) << ": " << suit.sentence << "\n";
    }
    if (!answer.why.empty()) {
        out << answer.why << "\n";
    }
    if (answer.flush) {
        out << answer.flush->batches << " × " << fixed(asked.batch.in(litre), 1) << " L, "
            << fixed(answer.flush->total.in(litre), 1)
            << " L in all: " << fixed(answer.flush->residual.in(units::percent), 2) << " % of the last fluid stays\n";
    }
    if (asked.tank) {
        const double percent = *asked.holdUp / *asked.tank * 100.0;
        out << "into the tank without a flush: up to " << fixed(percent, 1) << " %";
        if (answer.flush) {
            out << ", after it " << fixed(percent * answer.flush->residual.in(units::one), 3) << " %";
        }
        out << "\n";
    }
}

} // namespace

Done flush(const FlushOptions& options, std::ostream& out)
{
    const auto asked = askedFrom(options);
    if (!asked) {
        return fail(asked.error());
    }
    const auto answer = answerTo(*asked, options);
    if (!answer) {
        return fail(answer.error());
    }
    if (options.json) {
        out << answerJson(*asked, *answer).dump() << "\n";
    } else {
        tellAnswer(*asked, *answer, out);
    }
    return {};
}

} // namespace loopside::cli
