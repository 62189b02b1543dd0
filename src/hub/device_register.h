// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"
#include "ledger/keys.h"
#include "sync/enrolment.h"
#include "sync/signed_request.h"

namespace loopside::hub {

struct SiteRecord
{
    Id site = {};
    Id log = {}; ///< New whenever what the hub holds was restored.

    friend bool operator==(const SiteRecord&, const SiteRecord&) = default;
};

/// The site whose hub this is: `wanted`, or, where that is none, the one that the database holds. A new one where it
/// holds none. Conflict where it holds several and none is named.
[[nodiscard]] Result<SiteRecord> siteIn(Sql& sql, const Id& wanted, std::int64_t nowMs, RandomSource& random);

/// Writes down what somebody did to the hub at `nowMs`: within a transaction. Secrets do not go in.
[[nodiscard]] Done noteDeed(Sql& sql, const Id& site, std::int64_t nowMs, std::string_view what);

/// The deeds of `site`, oldest first, each with its moment in front.
[[nodiscard]] Result<std::vector<std::string>> deedsOf(Sql& sql, const Id& site);

struct Device
{
    Id id = {};
    ledger::PublicKey key = {};
    std::string name;
    std::int64_t enrolledAtMs = 0;
    std::optional<std::int64_t> revokedAtMs = {};

    friend bool operator==(const Device&, const Device&) = default;
};

/// How long a code lets a tablet in.
inline constexpr std::int64_t codeLastsMs = std::int64_t{15} * 60'000;

/// The tablets of a site, the codes that let one in, and the nonces that were used.
class DeviceRegister
{
public:
    /// `sql`, laid out, outlives it.
    DeviceRegister(Sql& sql, const Id& site) : sql_{&sql}, site_{site} {}

    /// From now on `secret` lets one tablet in, for a quarter of an hour. Only its hash is kept.
    [[nodiscard]] Done addCode(const std::string& secret, std::int64_t nowMs);

    /// Lets the tablet in, whose signature was looked at, and uses up the code. A tablet that is in already with this
    /// key needs none: the answer may have been lost. NotFound for a code that is not valid; Conflict for another key
    /// than before, or a tablet that was struck off.
    [[nodiscard]] Done enrol(const sync::EnrolmentRequest& request, std::int64_t nowMs);

    [[nodiscard]] Result<std::optional<Device>> find(const Id& device) const;

    /// By the time of their enrolment.
    [[nodiscard]] Result<std::vector<Device>> all() const;

    /// Strikes the tablet off: it may say nothing more. What it wrote stays. NotFound if it is none of this site.
    [[nodiscard]] Done revoke(const Id& device, std::int64_t nowMs);

    /// Puts `device` in as it is: from a backup.
    [[nodiscard]] Done put(const Device& device);

    /// Conflict if the nonce was used before. `proof` is within the window at `nowMs`.
    [[nodiscard]] Done useNonce(const sync::RequestProof& proof, std::int64_t nowMs);

private:
    [[nodiscard]] Done letIn(const sync::EnrolmentRequest& request, std::int64_t nowMs);
    [[nodiscard]] Done useCode(const std::string& secret, std::int64_t nowMs);

    Sql* sql_;
    Id site_;
};

} // namespace loopside::hub
