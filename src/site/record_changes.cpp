// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/record_changes.h"

#include "ledger/body.h"
#include "words/field_told.h"
#include "words/oil_told.h"

#include <nlohmann/json.hpp>

namespace loopside::site {

namespace {

using Json = nlohmann::ordered_json;

/// The members as the journal has them, those of the record itself at the top.
Json membersOf(const run::RecordPut& record)
{
    Json body = Json::parse(ledger::bodyOf(run::asEvent(record)));
    for (const char* inner : {"tank", "cart", "fluid", "stage"}) {
        if (body.contains(inner) && body[inner].is_object()) {
            Json members = body[inner];
            body.erase(inner);
            members.update(body);
            return members;
        }
    }
    return body;
}

std::string textOf(const Json& value)
{
    const bool isNothing = value.is_null() || (value.is_structured() && value.empty());
    return isNothing ? std::string() : value.is_string() ? value.get<std::string>() : value.dump();
}

std::string valueAt(const Json& flat, const std::string& place)
{
    return flat.contains(place) ? textOf(flat.at(place)) : std::string();
}

} // namespace

std::vector<Change> changesBetween(const run::RecordPut& before, const run::RecordPut& after)
{
    return changesBetween(membersOf(before), membersOf(after));
}

std::vector<Change> changesBetween(const Json& before, const Json& after)
{
    const Json was = before.flatten();
    const Json is = after.flatten();
    std::vector<Change> changes;
    const auto add = [&](const std::string& place) {
        Change change{place, valueAt(was, place), valueAt(is, place)};
        if (change.was != change.becomes) {
            changes.push_back(std::move(change));
        }
    };
    for (const auto& [place, value] : is.items()) {
        add(place);
    }
    for (const auto& [place, value] : was.items()) {
        if (!is.contains(place)) {
            add(place);
        }
    }
    return changes;
}

std::vector<Change> valuesOf(const run::RecordPut& record)
{
    std::vector<Change> values = changesBetween(Json::object(), membersOf(record));
    std::erase_if(values, [](const Change& value) {
        return value.place == "/name" || value.place == "/type" || value.place == "/order";
    });
    return values;
}

namespace {

/// A kind of element or of oil, and an oil that a cart pumped, by their words; anything else as it came.
std::string valueTold(const words::Words& words, const Change& change, const std::string& value)
{
    if (change.place.ends_with("/kind") && words.has("app.stage." + value)) {
        return words.say("app.stage." + value);
    }
    const bool isOil = change.place.ends_with("/kind") || change.place.ends_with("/last_fluid");
    return isOil ? words::oilText(words, value) : value;
}

} // namespace

std::string changeText(const words::Words& words, const Change& change)
{
    const auto orDash = [](const std::string& text) { return text.empty() ? std::string("–") : text; };
    return words::fieldName(words, change.place) + ": " + orDash(valueTold(words, change, change.was)) + " → "
        + orDash(valueTold(words, change, change.becomes));
}

std::string valueText(const words::Words& words, const Change& change)
{
    return words::fieldName(words, change.place) + ": " + valueTold(words, change, change.becomes);
}

} // namespace loopside::site
