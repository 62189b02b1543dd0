// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "ledger/entry.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>

namespace loopside::handover {

/// A request to a hub, signed and ready to go.
struct Post
{
    std::string address;   ///< Name or number of the hub, with its port.
    std::string path;      ///< Such as "/v1/messages".
    std::string type;      ///< Of the body.
    std::string signature; ///< The value of the header line `sync::signatureHeader`.
    std::string body;
    /// Whether the hub that shows a certificate with this SHA-256 is the one meant. Nothing is told to another one.
    std::function<bool(const ledger::Hash& certificate)> isMeant;
};

/// What the hub answered.
struct Answer
{
    int status = 0;
    std::string body;
    std::optional<std::int64_t> hubTimeMs = {};
    std::optional<int> retryAfterS = {};
    ledger::Hash certificate = {}; ///< That it showed.
};

/// The way to a hub and back.
class Carrier
{
public:
    using Heard = std::function<void(Result<Answer>)>;

    virtual ~Carrier() = default;

    /// Sends `post` and calls `heard` once: with the answer; Unavailable where nobody answers, Conflict where another
    /// hub than the one meant does. Never before it has returned. One request is under way at a time.
    virtual void send(Post post, Heard heard) = 0;

    /// Gives up what is under way; nothing is heard of it any more.
    virtual void giveUp() = 0;
};

} // namespace loopside::handover
