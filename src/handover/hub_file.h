// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/tablet_side.h"

#include <optional>
#include <string>

namespace loopside::handover {

/// The hub at which a tablet is enrolled.
struct Hub
{
    std::string address = {}; ///< As typed: a name or number, with a port, such as "hub.plant.example:8443".
    sync::Site site = {};
    ledger::Hash certificate = {}; ///< SHA-256 of its certificate (DER): the tablet speaks to that one alone.
};

/// The hub in the file `path` (schema/README.md, section 3a); nothing without a file. Malformed for what is none.
[[nodiscard]] Result<std::optional<Hub>> readHub(const std::string& path);

/// Puts `hub` into the file `path`, open to its owner alone, and returns when it is on disk.
[[nodiscard]] Done writeHub(const std::string& path, const Hub& hub);

} // namespace loopside::handover
