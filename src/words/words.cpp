// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/words.h"

#include "embedded/deJson.h"
#include "embedded/enJson.h"
#include "embedded/esJson.h"
#include "ledger/json.h"
#include "words/field_told.h"
#include "words/oil_told.h"

#include <algorithm>
#include <array>

namespace loopside::words {

namespace {

constexpr std::array<std::string_view, 3> known = {"en", "es", "de"};

std::string_view catalogueOf(std::string_view language)
{
    if (language == "de") {
        return deJson();
    }
    return language == "es" ? esJson() : enJson();
}

std::map<std::string, std::string, std::less<>> readCatalogue(const ledger::JsonReader& object)
{
    std::map<std::string, std::string, std::less<>> sentences;
    for (const auto& [id, sentence] : object.value().members) {
        sentences.emplace(id, object.at(id).text());
    }
    return sentences;
}

const Message::Argument* argumentOf(const Message& message, std::string_view name)
{
    const auto found = std::find_if(message.arguments.begin(), message.arguments.end(),
                                    [&](const Message::Argument& argument) { return argument.first == name; });
    return found == message.arguments.end() ? nullptr : &*found;
}

/// Names of values that are quantities of stages, oils, tanks and plans. A name that is not here is told as it came: it
/// may be words that somebody typed, or what a needle shows.
constexpr auto quantities = std::to_array<std::string_view>(
    {"allowed",   "at-level",    "behaves-at", "bypass",    "cold",     "coldest",    "corrected",      "drop",
     "drop-base", "drop-before", "drop-least", "drop-most", "expected", "filters",    "filters-before", "flow",
     "free",      "hold-up",     "hot",        "left",      "life",     "life-least", "life-middle",    "life-most",
     "limit",     "needed",      "oil",        "oil-base",  "relief",   "room",       "setting",        "volume"});

/// Names of values that may be oils.
constexpr auto oils = std::to_array<std::string_view>({"fluid", "last", "oil"});

/// They quote what was typed.
constexpr auto quoting = std::to_array<std::string_view>({"question.", "refused.", "fault.", "app.answer."});

/// A value that is a field of a record, and one that is a sentence of its own.
constexpr std::string_view recordField = "record-field";
constexpr std::string_view because = "because";

} // namespace

std::span<const std::string_view> languages()
{
    return known;
}

Result<Words> Words::in(std::string_view language)
{
    if (std::find(known.begin(), known.end(), language) == known.end()) {
        return fail(Errc::NotFound,
                    "there are no words in the language \"" + std::string(language) + "\"; known are en, es, de");
    }
    auto sentences = ledger::readJson(catalogueOf(language), readCatalogue);
    if (!sentences) {
        return fail(sentences.error());
    }
    return of(*std::move(sentences));
}

Words Words::of(std::map<std::string, std::string, std::less<>> sentences)
{
    Words words;
    words.sentences_ = std::move(sentences);
    return words;
}

std::string Words::say(const Message& message) const
{
    const auto sentence = sentences_.find(message.id);
    if (sentence == sentences_.end()) {
        return "[" + message.id + "]";
    }
    std::string said;
    std::string_view rest = sentence->second;
    for (auto open = rest.find('{'); open != std::string_view::npos; open = rest.find('{')) {
        const auto close = rest.find('}', open);
        const Message::Argument* value = close == std::string_view::npos
            ? nullptr
            : argumentOf(message, rest.substr(open + 1, close - open - 1));
        if (value == nullptr) {
            break;
        }
        said += std::string(rest.substr(0, open)) + told(message, *value);
        rest.remove_prefix(close + 1);
    }
    return said + std::string(rest);
}

std::string Words::told(const Message& message, const Message::Argument& argument) const
{
    if (argument.first == recordField) {
        return fieldName(*this, argument.second);
    }
    if (argument.first == because && has(argument.second)) {
        return say(argument.second);
    }
    const bool isQuoted = std::ranges::any_of(
        quoting, [&](std::string_view beginning) { return message.id.starts_with(beginning); });
    const bool isQuantity = std::ranges::find(quantities, argument.first) != quantities.end();
    const std::string quantity = isQuantity && !isQuoted ? units::shown(argument.second, wanted_) : argument.second;
    const bool isOil = std::ranges::find(oils, argument.first) != oils.end();
    return isOil && !isQuoted ? oilText(*this, quantity) : quantity;
}

std::string Words::say(const Error& error) const
{
    return has(error.say.id) ? say(error.say) : error.sentence;
}

bool Words::has(std::string_view id) const
{
    return sentences_.contains(id);
}

} // namespace loopside::words
