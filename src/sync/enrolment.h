// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a tablet and a hub say to each other once, when the tablet is enrolled. Two JSON objects, laid out in
// schema/wire/README.md, section 7. The request is signed (signed_request.h) by the very key that it names, for no
// site.

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "ledger/keys.h"

#include <string>
#include <string_view>

namespace loopside::sync {

/// Most bytes of a device's name.
inline constexpr std::size_t deviceNameBytesMax = 64;

/// Most bytes of either object.
inline constexpr std::size_t enrolmentBytesMax = 2048;

struct EnrolmentRequest
{
    Id device = {};
    ledger::PublicKey key = {};
    std::string secret; ///< Of the code (enrolment_code.h), eight signs.
    std::string name;   ///< By which people know the tablet, such as "tablet 2"; may be empty.

    friend bool operator==(const EnrolmentRequest&, const EnrolmentRequest&) = default;
};

struct EnrolmentAnswer
{
    Id site = {};
    ledger::PublicKey hubKey = {};

    friend bool operator==(const EnrolmentAnswer&, const EnrolmentAnswer&) = default;
};

[[nodiscard]] std::string bytesOf(const EnrolmentRequest& request);
[[nodiscard]] std::string bytesOf(const EnrolmentAnswer& answer);

/// What `bytesOf` wrote. Incompatible for one of a newer version, Malformed for anything else.
[[nodiscard]] Result<EnrolmentRequest> enrolmentRequestFrom(std::string_view bytes);
[[nodiscard]] Result<EnrolmentAnswer> enrolmentAnswerFrom(std::string_view bytes);

} // namespace loopside::sync
