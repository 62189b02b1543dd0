// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "filtration/suits.h"

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace loopside::filtration {

/// What an answer is about.
struct SuitTopic
{
    SuitLevel level;
    SuitSubject subject;
    std::optional<int> stage = {};
};

/// What an answer says: an id of the word catalogue and its English sentence, with {names} for values.
struct SuitSaying
{
    std::string_view id;
    std::string_view english;
    std::string_view source;
};

/// The answer, with its values. {stage} is filled from the topic.
[[nodiscard]] Suit suit(const SuitTopic& topic, const SuitSaying& saying,
                        std::initializer_list<std::pair<std::string_view, std::string>> values = {});

inline constexpr std::string_view commonPractice = "common practice, no source";

} // namespace loopside::filtration
