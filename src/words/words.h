// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Every sentence that a person reads, in one place: ids and values in, a language out. The catalogues stand in
// assets/words, one JSON object per language, all with the same ids and the same {names} (a test compares them).

#pragma once

#include "base/result.h"
#include "units/wanted.h"

#include <map>
#include <span>
#include <string>
#include <string_view>

namespace loopside::words {

/// The languages that there is a catalogue for, such as "en"; the first is what is spoken if nothing else is asked for.
[[nodiscard]] std::span<const std::string_view> languages();

/// One language.
class Words
{
public:
    /// NotFound, with the known languages in the sentence, otherwise.
    [[nodiscard]] static Result<Words> in(std::string_view language);

    /// A language of its own, for tests: sentences by their ids.
    [[nodiscard]] static Words of(std::map<std::string, std::string, std::less<>> sentences);

    /// From now on quantities in sentences are told in these units; as they came where none is wanted. Not in what
    /// quotes what was typed or what a needle shows: questions, refusals, values of one gauge.
    void want(const units::Wanted& wanted) { wanted_ = wanted; }
    [[nodiscard]] const units::Wanted& wanted() const { return wanted_; }

    /// The sentence with its values. An id that no catalogue has is a mistake of the program; it comes back in
    /// brackets, so that a screen shows something that can be reported.
    [[nodiscard]] std::string say(const Message& message) const;
    [[nodiscard]] std::string say(std::string id) const { return say(Message{std::move(id), {}}); }

    /// The sentence of an error: its own, if it has one for technicians, else the plain one.
    [[nodiscard]] std::string say(const Error& error) const;

    [[nodiscard]] bool has(std::string_view id) const;
    [[nodiscard]] const std::map<std::string, std::string, std::less<>>& all() const { return sentences_; }

private:
    [[nodiscard]] std::string told(const Message& message, const Message::Argument& argument) const;

    units::Wanted wanted_;
    std::map<std::string, std::string, std::less<>> sentences_;
};

} // namespace loopside::words
