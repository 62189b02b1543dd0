// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/tank_look.h"

#include "ledger/json.h"

#include <nlohmann/json.hpp>

#include <string_view>

namespace loopside::ledger {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view tagKey = "tag";
constexpr std::string_view fixKey = "fix";

run::LookBy readBy(const JsonReader& by)
{
    const auto read = run::lookByNamed(by.text());
    if (!read) {
        by.refuse("nobody looks at a tank in this way");
    }
    return *read;
}

run::TankLook readLook(const JsonReader& look)
{
    if (look.isText()) {
        return {.by = run::LookBy::Reader, .read = look.text(), .expected = {}};
    }
    run::TankLook read{.by = look.ifThere("by", readBy).value_or(run::LookBy::Typed),
                       .read = look.textOr("read"),
                       .expected = look.textOr("expected")};
    const auto fits = look.find("fits");
    read.fits = fits ? fits->boolean() : !read.expected.empty() && run::readsAs(read.read, read.expected);
    read.of = look.textOr("of");
    read.why = look.textOr("why");
    return read;
}

run::Fix readFix(const JsonReader& fix)
{
    return {.place = {fix.at("latitude").real(), fix.at("longitude").real()},
            .accuracy_m = fix.ifThere("accuracy_m", [](const JsonReader& metres) { return metres.real(); })};
}

/// What `read` makes of the details of `kept`, if it is of that kind and form.
template<class Value>
std::optional<Value> detailsOf(const run::Kept& kept, std::string_view what, Value (*read)(const JsonReader&))
{
    if (kept.what != what) {
        return std::nullopt;
    }
    auto details = readJson(kept.details, read);
    return details ? std::optional<Value>(*std::move(details)) : std::nullopt;
}

/// What `read` finds in the kept facts of `run` that were not struck, in their order.
template<class Value>
std::vector<Value> allIn(const run::RunState& run, std::optional<Value> (*read)(const run::Kept&))
{
    std::vector<Value> values;
    for (const run::Fact& fact : run.facts) {
        const auto* kept = std::get_if<run::Kept>(&fact.effective);
        if (auto value = kept != nullptr && !fact.struck ? read(*kept) : std::nullopt) {
            values.push_back(*std::move(value));
        }
    }
    return values;
}

} // namespace

run::Kept asKept(const run::TankLook& look)
{
    Json details = {{"by", run::nameOf(look.by)}, {"read", look.read}};
    const auto put = [&](const char* key, const std::string& text) {
        if (!text.empty()) {
            details[key] = text;
        }
    };
    put("expected", look.expected);
    details["fits"] = look.fits;
    put("of", look.of);
    put("why", look.why);
    return {std::string(tagKey), details.dump()};
}

run::Kept asKept(const run::Fix& fix)
{
    Json details = {{"latitude", fix.place.latitude_deg}, {"longitude", fix.place.longitude_deg}};
    if (fix.accuracy_m) {
        details["accuracy_m"] = *fix.accuracy_m;
    }
    return {std::string(fixKey), details.dump()};
}

std::optional<run::TankLook> lookIn(const run::Kept& kept)
{
    return detailsOf(kept, tagKey, readLook);
}

std::optional<run::Fix> fixIn(const run::Kept& kept)
{
    return detailsOf(kept, fixKey, readFix);
}

std::vector<run::TankLook> looksOf(const run::RunState& run)
{
    return allIn(run, lookIn);
}

std::map<std::string, run::Fix> placesOf(const run::State& state)
{
    std::map<std::string, run::Fix> places;
    for (const auto& [id, run] : state.runs) {
        const run::TankKnown known = tankKnown(run);
        if (known != run::TankKnown::Once && known != run::TankKnown::Twice) {
            continue;
        }
        for (const run::Fix& fix : allIn(run, fixIn)) {
            const auto [place, isNew] = places.try_emplace(run.setup.tank.name, fix);
            if (fix.accuracy_m
                && (isNew || !place->second.accuracy_m || *fix.accuracy_m <= *place->second.accuracy_m)) {
                place->second = fix;
            }
        }
    }
    std::erase_if(places, [](const auto& place) { return !place.second.accuracy_m; });
    return places;
}

run::TankKnown tankKnown(const run::RunState& run)
{
    return run::knownFrom(looksOf(run), run.setup.tank.name);
}

} // namespace loopside::ledger
