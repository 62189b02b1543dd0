// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a person carries from the hub's terminal to a tablet, once: twenty signs. The first eight are the secret that
// lets the tablet in; the other twelve are the beginning of the fingerprint of the hub's certificate, so that the
// tablet tells the secret to no other hub.

#pragma once

#include "base/result.h"
#include "ledger/chain.h"

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace loopside::sync {

inline constexpr std::size_t enrolmentSecretSigns = 8;
inline constexpr std::size_t enrolmentPinSigns = 12;

struct EnrolmentCode
{
    std::string secret; ///< Eight signs.
    std::string pin;    ///< Twelve signs.

    friend bool operator==(const EnrolmentCode&, const EnrolmentCode&) = default;
};

/// A secret from five random bytes.
[[nodiscard]] std::string enrolmentSecretOf(const std::array<std::uint8_t, 5>& random);

/// The pin of a certificate whose SHA-256, over its DER form, is `fingerprint`: its first 60 bits.
[[nodiscard]] std::string enrolmentPinOf(const ledger::Hash& fingerprint);

/// `code` as it is shown: five groups of four signs with dashes between them.
[[nodiscard]] std::string toText(const EnrolmentCode& code);

/// A code as somebody typed it: small letters, blanks and dashes are fine, O is 0, I and L are 1. Malformed otherwise;
/// the sentence does not repeat what was typed.
[[nodiscard]] Result<EnrolmentCode> enrolmentCodeFrom(std::string_view typed);

} // namespace loopside::sync
