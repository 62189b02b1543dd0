// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "truth.h"

#include "story/vocabulary.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace loopside::evaluation {

namespace {

using Json = nlohmann::json;
using run::RunTime;

/// Thrown and caught within this file.
struct Fault
{
    std::string sentence;
};

RunTime timeAt(const Json& text, const std::string& place)
{
    const auto time = text.is_string() ? story::timeFrom(text.get<std::string>())
                                       : Result<RunTime>(fail(Errc::Malformed, "a time is a text"));
    return time ? *time : throw Fault{place + ": " + time.error().sentence};
}

AlsoTrue alsoTrueFrom(const Json& line, const std::string& place)
{
    AlsoTrue read;
    for (const auto& [key, value] : line.items()) {
        if (key == "id") {
            read.id = value.get<std::string>();
        } else if (key == "stage") {
            read.stage = value.get<int>();
        } else if (key == "from") {
            read.from = timeAt(value, place);
        } else if (key == "until") {
            read.until = timeAt(value, place);
        } else if (key == "why") {
            read.why = value.get<std::string>();
        } else {
            throw Fault{place + ": \"" + key + "\" is not a member here"};
        }
    }
    if (!story::isFinding(read.id) && !story::isQuestion(read.id)) {
        throw Fault{place + ": there is no finding or question \"" + read.id + "\""};
    }
    if (read.why.empty()) {
        throw Fault{place + ": a truth needs a reason (\"why\")"};
    }
    return read;
}

MeantSets meantFrom(const Json& sets, const std::string& place)
{
    MeantSets meant;
    for (const auto& [at, numbers] : sets.items()) {
        timeAt(Json(at), place);
        for (const Json& number : numbers) {
            const auto decimal = Decimal::parse(number.dump());
            meant[at].push_back(decimal ? *decimal : throw Fault{place + ": " + decimal.error().sentence});
        }
    }
    return meant;
}

Truths truthsOf(const Json& object)
{
    Truths truths;
    for (const auto& [key, value] : object.items()) {
        if (key == "normal") {
            truths.normal = value.get<std::set<std::string>>();
        } else if (key == "also_true") {
            for (const auto& [story, lines] : value.items()) {
                for (std::size_t i = 0; i < lines.size(); ++i) {
                    const std::string place = "also_true." + story + "[" + std::to_string(i) + "]";
                    truths.alsoTrue[story].push_back(alsoTrueFrom(lines[i], place));
                }
            }
        } else if (key == "meant") {
            for (const auto& [story, sets] : value.items()) {
                truths.meant[story] = meantFrom(sets, "meant." + story);
            }
        } else if (key != "about") {
            throw Fault{"\"" + key + "\" is not a member here"};
        }
    }
    return truths;
}

bool isOfStage(std::optional<int> wanted, std::optional<int> stage)
{
    return !wanted || !stage || wanted == stage;
}

} // namespace

Result<Truths> truthsFrom(const std::string& text)
{
    try {
        return truthsOf(Json::parse(text));
    } catch (const Fault& fault) {
        return fail(Errc::Malformed, fault.sentence);
    } catch (const Json::exception& error) {
        return fail(Errc::Malformed, error.what());
    }
}

Result<Truths> readTruths(const std::filesystem::path& file)
{
    std::ifstream stream(file, std::ios::binary);
    if (!stream) {
        return fail(Errc::Io, file.string() + " cannot be opened");
    }
    return truthsFrom({std::istreambuf_iterator<char>(stream), {}});
}

bool Truth::mayFind(const std::string& id, std::optional<int> stage, RunTime at) const
{
    return isAlsoTrue(id, stage, at) || isExpected({"finding", "alert"}, {"no_finding", "no_alert"}, id, stage, at);
}

bool Truth::mayAsk(const std::string& id, RunTime at) const
{
    return isAlsoTrue(id, {}, at) || isExpected({"question"}, {"no_question"}, id, {}, at);
}

bool Truth::isAlsoTrue(const std::string& id, std::optional<int> stage, RunTime at) const
{
    return std::ranges::any_of(alsoTrue_, [&](const AlsoTrue& truth) {
        return truth.id == id && isOfStage(truth.stage, stage) && at >= truth.from.value_or(at)
            && at <= truth.until.value_or(at);
    });
}

bool Truth::isExpected(const std::set<std::string>& yes, const std::set<std::string>& no, const std::string& id,
                       std::optional<int> stage, RunTime at) const
{
    std::vector<RunTime> said;
    std::vector<RunTime> notSaid;
    for (const story::Expectation& line : story_.expectations) {
        const RunTime there = line.at.value_or(story_.entries.back().seen);
        if (line.id == id && isOfStage(line.stage, stage) && yes.contains(line.key)) {
            said.push_back(there);
        } else if (line.id == id && isOfStage(line.stage, stage) && no.contains(line.key)) {
            notSaid.push_back(there);
        }
    }
    return std::ranges::any_of(said, [&](RunTime then) {
        return std::ranges::none_of(notSaid, [&](RunTime never) {
            return never == at || (at < never && never < then) || (then < never && never < at);
        });
    });
}

} // namespace loopside::evaluation
