// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "handover/carrier.h"

#include <optional>

namespace loopside::cli {

/// The way to a hub over HTTPS. It speaks to the hub whose certificate is meant and to no other: whatever authority or
/// name stands in another one, the handshake with it is broken off before anything is told. The name in the one that
/// is meant does not matter: a hub may be reached by another.
///
/// It has no thread: its owner carries what was sent, until nothing is left.
class HttpsCarrier final : public handover::Carrier
{
public:
    void send(handover::Post post, Heard heard) override { waiting_ = Waiting{std::move(post), std::move(heard)}; }
    void giveUp() override { waiting_.reset(); }

    /// Carries what was sent and lets the answer be heard, which may send something again. False where nothing waits.
    bool carry();

private:
    struct Waiting
    {
        handover::Post post;
        Heard heard;
    };

    std::optional<Waiting> waiting_ = {};
};

} // namespace loopside::cli
