// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "ledger/journal.h"
#include "ledger/keys.h"

#include <string>

namespace loopside::store {

/// The device's key from the file `path`; if there is none, a new one, which is on disk when this returns.
///
/// The file (schema/README.md) is open to its owner alone. One that others may read or write is refused as Conflict,
/// one that holds anything but a key as Corrupt, and neither is touched: a chain goes on only with the key that began
/// it. Io if it can be neither read nor made.
[[nodiscard]] Result<ledger::DeviceKey> loadOrCreateKey(const std::string& path);

/// The id of the device that has `key`: the beginning of its public key.
[[nodiscard]] Id deviceOf(const ledger::DeviceKey& key);

/// What to tell before the key in the file `path` signs in `journal` for the first time, where one that is kept beside
/// it did: that the key was replaced. An empty id: nothing; so also where the journal came from another tablet.
[[nodiscard]] Result<Message> replacedKeyNotice(const ledger::Journal& journal, const std::string& path,
                                                const Id& device);

/// Puts a new key in the place of the one in `path`, which is kept beside it; returns the name under which. The errors
/// of `loadOrCreateKey`: a file that holds no key is not replaced. On failure the old key is in its place, or, where
/// only the disk did not say that it holds the names, the new one with the old one kept.
[[nodiscard]] Result<std::string> replaceKey(const std::string& path);

} // namespace loopside::store
