// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>
#include <vector>

namespace loopside {

/// What a caller can do about a failure. A code is added when a caller would act differently, not before.
enum class Errc
{
    OutOfRange,   ///< A number outside the range in which the answer means anything.
    Malformed,    ///< Text or bytes that do not follow their format.
    NotFound,     ///< Something named that is not there.
    Conflict,     ///< Refused in this state.
    Corrupt,      ///< Stored bytes that do not say what they said when they were written.
    Io,           ///< The disk or the operating system said no; nothing was stored.
    Unavailable,  ///< Cannot be had now; may be later.
    Incompatible, ///< Written by a newer version.
};

/// A sentence that is still to be said: an id of the word catalogue and the values that go into it.
/// `words` turns it into a language; the core never does.
struct Message
{
    using Argument = std::pair<std::string, std::string>;

    std::string id;
    std::vector<Argument> arguments;

    friend bool operator==(const Message&, const Message&) = default;
};

/// Why something failed: a code for the program, a plain sentence with the values in it for people.
/// `say` names the catalogue sentence where the failure is one that a technician meets; else it is empty.
struct Error
{
    Errc code;
    std::string sentence;
    Message say = {};
};

/// The value, or why there is none. Functions that return one are marked `[[nodiscard]]` (the tidy test looks).
/// Only what std::expected has too is used of it, so that the day the compiler has it one line changes.
template<class T>
using Result = tl::expected<T, Error>;

/// Success with nothing to say.
using Done = Result<void>;

/// Ends a function with an error.
[[nodiscard]] inline tl::unexpected<Error> fail(Errc code, std::string sentence)
{
    return tl::unexpected<Error>(Error{code, std::move(sentence), {}});
}

/// Ends a function with an error that a technician meets.
[[nodiscard]] inline tl::unexpected<Error> fail(Errc code, std::string sentence, Message say)
{
    return tl::unexpected<Error>(Error{code, std::move(sentence), std::move(say)});
}

/// Passes another function's error on.
[[nodiscard]] inline tl::unexpected<Error> fail(Error error)
{
    return tl::unexpected<Error>(std::move(error));
}

} // namespace loopside
