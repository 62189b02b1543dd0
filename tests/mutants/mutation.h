// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Small faults that could have been written by mistake. A test that no such fault makes fail looks away.

#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::mutants {

/// One fault: the `length` signs at `offset` of a text become `instead`.
struct Mutation
{
    std::string_view kind; ///< comparison, arithmetic, constant, boolean, return or statement.
    std::size_t offset = 0;
    std::size_t length = 0;
    std::string instead;
};

/// Every fault that can be put into the C++ of `text`, by its place. Comments, strings, includes and what `require` and
/// `static_assert` check are left as they are: the first two are no code, and the last two stop only a wrong program.
///
/// comparison: < and <=, > and >=, == and != exchanged. arithmetic: + and -, * and / exchanged, also of += and *=.
/// constant: an integer by one more, 0.0 by 1.0, any other number by half more. boolean: && and ||, true and false
/// exchanged, a ! taken away. return: what is returned becomes {}. statement: one that stands alone on a line goes.
[[nodiscard]] std::vector<Mutation> mutationsOf(std::string_view text);

/// `text` with the one fault.
[[nodiscard]] std::string mutated(std::string_view text, const Mutation& mutation);

/// `count` of `all` things, or all of them, as their numbers from 0 in a mixed order; the same for the same seed.
[[nodiscard]] std::vector<std::size_t> chosen(std::size_t all, std::size_t count, std::uint64_t seed);

} // namespace loopside::mutants
