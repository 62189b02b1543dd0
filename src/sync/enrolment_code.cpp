// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/enrolment_code.h"

#include "base/code_signs.h"

#include <span>

namespace loopside::sync {

namespace {

constexpr unsigned bitsOfSign = 5;
constexpr std::size_t signsOfGroup = 4;

/// The first `count` signs that stand for `bytes`, five bits each, the highest first.
std::string signsOf(std::span<const std::uint8_t> bytes, std::size_t count)
{
    std::string text;
    for (std::size_t i = 0; i < count; ++i) {
        unsigned value = 0;
        for (std::size_t bit = i * bitsOfSign; bit < (i + 1) * bitsOfSign; ++bit) {
            value = value << 1U | (bytes[bit / 8] >> (7 - bit % 8) & 1U);
        }
        text += codeSigns[value];
    }
    return text;
}

} // namespace

std::string enrolmentSecretOf(const std::array<std::uint8_t, 5>& random)
{
    return signsOf(random, enrolmentSecretSigns);
}

std::string enrolmentPinOf(const ledger::Hash& fingerprint)
{
    return signsOf(fingerprint, enrolmentPinSigns);
}

std::string toText(const EnrolmentCode& code)
{
    const std::string all = code.secret + code.pin;
    std::string text;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i > 0 && i % signsOfGroup == 0) {
            text += '-';
        }
        text += all[i];
    }
    return text;
}

Result<EnrolmentCode> enrolmentCodeFrom(std::string_view typed)
{
    std::string all;
    for (const char sign : typed) {
        if (sign == ' ' || sign == '-') {
            continue;
        }
        const char kept = codeSignOf(sign);
        if (kept == '\0') {
            return fail(Errc::Malformed, "the code has a sign that stands in no enrolment code");
        }
        all += kept;
    }
    if (all.size() != enrolmentSecretSigns + enrolmentPinSigns) {
        return fail(Errc::Malformed, "an enrolment code has 20 signs; this one has " + std::to_string(all.size()));
    }
    return EnrolmentCode{all.substr(0, enrolmentSecretSigns), all.substr(enrolmentSecretSigns)};
}

} // namespace loopside::sync
