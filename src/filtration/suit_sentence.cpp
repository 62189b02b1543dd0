// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/suit_sentence.h"

namespace loopside::filtration {

Suit suit(const SuitTopic& topic, const SuitSaying& saying,
          std::initializer_list<std::pair<std::string_view, std::string>> values)
{
    Message told{std::string(saying.id), {}};
    if (topic.stage) {
        told.arguments.emplace_back("stage", std::to_string(*topic.stage));
    }
    for (const auto& [name, value] : values) {
        told.arguments.emplace_back(name, value);
    }
    std::string sentence(saying.english);
    for (const auto& [name, value] : told.arguments) {
        const std::string place = "{" + name + "}";
        for (auto at = sentence.find(place); at != std::string::npos; at = sentence.find(place, at + value.size())) {
            sentence.replace(at, place.size(), value);
        }
    }
    return {topic.level, topic.subject, topic.stage, std::move(sentence), std::move(told), std::string(saying.source)};
}

} // namespace loopside::filtration
