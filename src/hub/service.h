// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// All that a hub answers, without sockets.

#pragma once

#include "base/clock.h"
#include "hub/device_register.h"
#include "hub/metrics.h"
#include "hub/rate_limit.h"
#include "hub/sql_files.h"
#include "hub/sql_hub.h"
#include "sync/hub_side.h"
#include "sync/message.h"

#include <map>
#include <mutex>
#include <optional>
#include <string>

namespace loopside::hub {

/// A request as it came. The views are the caller's.
struct Asked
{
    sync::Request request;
    std::string_view signature; ///< The value of the header line; empty: there is none.
    std::string_view address;   ///< Of who asks.
};

struct Answer
{
    int status = 200;
    std::string type = "application/json";
    std::string body = {};
    std::optional<int> retryAfterS = {};
    std::string device = {}; ///< Whose request it was, where that is certain: for the log.
    std::string reason = {}; ///< Why it was refused: for the log. Holds no secret.
};

/// Answers requests one at a time, from any thread.
///
/// Order of the checks: size, rate, signature and stamp, whether the device may speak, nonce; only then is the body
/// read. What is refused changes nothing.
class Service
{
public:
    /// All outlive it. `sql` is used by nobody else meanwhile; `clock` may be asked from any thread.
    Service(Sql& sql, const SiteRecord& site, ledger::DeviceKey key, Clock& clock);

    [[nodiscard]] Answer enrol(const Asked& asked);
    [[nodiscard]] Answer message(const Asked& asked);
    /// A list of files that a tablet has, or, by its path, one of them (sync/files.h).
    [[nodiscard]] Answer files(const Asked& asked);
    [[nodiscard]] Answer health() const;
    [[nodiscard]] Answer ready();
    [[nodiscard]] Answer metrics();

    /// An answer to a request that is longer than a message may be.
    [[nodiscard]] Answer tooLong() const;

    [[nodiscard]] std::int64_t nowMs();

private:
    /// What a request is about once it may be heard: the body of the answer, and of which type.
    struct Subject
    {
        std::string_view name; ///< In the metrics.
        std::string_view type;
        Result<std::string> (Service::*hear)(const Asked& asked, const Device& device);
    };

    [[nodiscard]] Answer enrolled(const Asked& asked, std::int64_t nowMs);
    [[nodiscard]] Answer signedAnswer(const Asked& asked, const Subject& subject);
    [[nodiscard]] Answer answered(const Asked& asked, const Subject& subject, const Stamp& now);
    [[nodiscard]] Answer answeredTo(const Device& device, const sync::RequestProof& proof, const Asked& asked,
                                    const Subject& subject, const Stamp& now);
    [[nodiscard]] Result<Device> speakerOf(const sync::RequestProof& proof, const sync::Request& request,
                                           std::int64_t nowMs) const;
    [[nodiscard]] Result<std::string> heardMessage(const Asked& asked, const Device& device);
    [[nodiscard]] Result<std::string> heardOfFiles(const Asked& asked, const Device& device);
    [[nodiscard]] Done mayEnrol(const Asked& asked, const sync::EnrolmentRequest& said) const;
    [[nodiscard]] Answer refused(const Id& site, const Error& error, int status) const;
    [[nodiscard]] Answer tooSoon(const Id& site, int seconds) const;
    [[nodiscard]] std::optional<ledger::PublicKey> keyOf(const Id& device);
    [[nodiscard]] Done isThere();

    std::mutex oneAtATime_;
    Sql* sql_;
    SiteRecord site_;
    ledger::PublicKey hubKey_;
    Clock* clock_;
    DeviceRegister register_;
    SqlHub store_;
    SqlFiles files_;
    sync::HubSide side_;
    std::map<Id, ledger::PublicKey> keys_; ///< Keys never change, so those that were seen are remembered.
    Done lookedUp_ = {};                   ///< Whether the keys that a message asked for could be looked up.
    Metrics metrics_;
    RateLimit byAddress_;
    RateLimit byDevice_;
    RateLimit enrolments_;
};

} // namespace loopside::hub
