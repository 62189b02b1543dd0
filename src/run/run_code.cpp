// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/run_code.h"

#include "base/code_signs.h"
#include "base/text.h"

#include <cstdint>

namespace loopside::run {

namespace {

constexpr std::size_t length = 6;
constexpr unsigned bitsOfSign = 5;

} // namespace

std::string codeOf(const Id& run)
{
    std::uint64_t bits = 0;
    for (std::size_t i = 12; i < run.bytes.size(); ++i) {
        bits = bits << 8U | run.bytes[i];
    }
    std::string code(length, '0');
    for (std::size_t i = length; i > 0; --i) {
        code[i - 1] = codeSigns[bits % codeSigns.size()];
        bits >>= bitsOfSign;
    }
    return code;
}

Result<std::string> codeFrom(std::string_view typed)
{
    std::string code;
    for (const char sign : typed) {
        if (sign == ' ' || sign == '-') {
            continue;
        }
        const char kept = codeSignOf(sign);
        if (kept == '\0') {
            return fail(Errc::Malformed, "the code \"" + quotable(typed) + "\" has a sign that stands in no code");
        }
        code += kept;
    }
    if (code.size() != length) {
        return fail(Errc::Malformed,
                    "the code of a run has six signs; \"" + quotable(typed) + "\" has " + std::to_string(code.size()));
    }
    return code;
}

std::vector<Id> runsWithCode(const State& state, const std::string& code)
{
    std::vector<Id> found;
    for (const auto& [id, run] : state.runs) {
        if (codeOf(id) == code) {
            found.push_back(id);
        }
    }
    return found;
}

} // namespace loopside::run
