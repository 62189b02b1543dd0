// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// An entry as it stands in the tables `entries` and `asides`.

#pragma once

#include "hub/sql.h"
#include "sync/shelf.h"
#include "sync/topic.h"

#include <algorithm>

namespace loopside::hub {

/// The columns behind the site, as both tables have them, in the order of store/entry_columns.h.
inline constexpr std::string_view entryColumns =
    "format, entry_id, device_id, chain_id, sequence, clock, run_id, person_id, entered_at, entered_offset_min, "
    "mono_ns, boot_id, observed_ago_ms, observed_how, kind, body, previous_hash, hash, signature, is_ahead";
inline constexpr std::size_t entryColumnCount = 20;

/// `held` as values for them. Its bytes stay the caller's.
[[nodiscard]] std::vector<SqlValue> valuesOf(const Id& site, const sync::Held& held);

/// The entry in `row`, which begins with them. Io where they do not say what they should.
[[nodiscard]] Result<sync::Held> heldFrom(const SqlRow& row);

/// The place of an entry in `row`, which begins with device, chain and sequence.
[[nodiscard]] Result<sync::Ref> refFrom(const SqlRow& row);

/// `bytes` as an id, a hash, a key or a signature; Io if it has another length.
template<class Bytes>
[[nodiscard]] Done take(const std::string& bytes, Bytes& into)
{
    if (bytes.size() != into.size()) {
        return fail(Errc::Io, "the hub's database holds a value of another length than it wrote: verify it");
    }
    std::copy(bytes.begin(), bytes.end(), into.begin());
    return {};
}

} // namespace loopside::hub
