// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/restore_reason.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>
#include <vector>

namespace loopside::store {

namespace {

/// A sentence as a journal may keep it, with names in braces for what differs, and the id of it in the catalogues.
struct Kept
{
    std::string_view id;
    std::string_view sentence;
};

constexpr std::array<Kept, 6> kept = {{
    {"restore-why.log", "its log is spoilt in the middle"},
    {"restore-why.gone", "its file is gone"},
    {"restore-why.end", "it ends at entry {last}, but entry {entry} had been logged, and is not there"},
    {"restore-why.backup", "it ends at entry {last}, but the backup of {moment} holds {entry}"},
    {"restore-why.person", "restored by a person"},
    {"restore-why.imported", "imported from {file}"},
}};

/// Stands behind any of them.
constexpr Kept endGone = {"restore-why.end-gone", "{why}; {entries} entries at its end are gone"};

/// The values in `said` where it is `sentence`, each up to what follows its name there.
std::optional<std::vector<Message::Argument>> valuesIn(std::string_view said, std::string_view sentence)
{
    std::vector<Message::Argument> values;
    while (!sentence.empty()) {
        const std::size_t text = std::min(sentence.find('{'), sentence.size());
        if (!said.starts_with(sentence.substr(0, text))) {
            return std::nullopt;
        }
        said.remove_prefix(text);
        sentence.remove_prefix(text);
        if (sentence.empty()) {
            break;
        }
        const std::size_t close = sentence.find('}');
        const std::string_view name = sentence.substr(1, close - 1);
        sentence.remove_prefix(close + 1);
        const std::string_view next = sentence.substr(0, sentence.find('{'));
        const std::size_t end = next.empty() ? said.size() : said.find(next);
        if (end == std::string_view::npos || end == 0) {
            return std::nullopt;
        }
        values.emplace_back(name, said.substr(0, end));
        said.remove_prefix(end);
    }
    return said.empty() ? std::optional(std::move(values)) : std::nullopt;
}

} // namespace

std::string restoreReason(const words::Words& words, std::string_view why)
{
    if (auto values = valuesIn(why, endGone.sentence)) {
        values->front().second = restoreReason(words, values->front().second);
        return words.say({std::string(endGone.id), *std::move(values)});
    }
    for (const Kept& each : kept) {
        if (auto values = valuesIn(why, each.sentence)) {
            return words.say({std::string(each.id), *std::move(values)});
        }
    }
    return words.say({"restore-why.damage", {{"found", std::string(why)}}});
}

std::string keepFailure(const words::Words& words, const Error& error)
{
    const std::string id = "keep-failed." + error.say.id;
    return words.has(id) ? words.say({id, error.say.arguments}) : error.sentence;
}

Message withReasonTold(const words::Words& words, Message message)
{
    for (auto& [name, value] : message.arguments) {
        if (message.id == "store-recovered" && name == "reason") {
            value = restoreReason(words, value);
        }
    }
    return message;
}

} // namespace loopside::store
