// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the record of a run stands on: its entries as the journal has them, byte for byte, and the first entries of the
// chains that they stand in, which state the keys. It can be checked where the journal is not.

#pragma once

#include "ledger/read_all.h"
#include "ledger/verify.h"

#include <string>
#include <vector>

namespace loopside::report {

struct Evidence
{
    Id run = {};
    std::vector<ledger::Entry> openings = {}; ///< Of every chain that one of `entries` is of, where they are there.
    std::vector<ledger::Entry> entries = {};  ///< Of the run, in the order of folding (run/header.h).
};

/// What `read` gives of `run`. NotFound if that is nothing.
[[nodiscard]] Result<Evidence> evidenceOf(const ledger::EntryReader& read, const Id& run);

/// Stands for the entries of the run, all of them in their order: SHA-256 over the 16 bytes `loopside record` and a
/// zero byte, followed by the 32 bytes of the hash of each.
[[nodiscard]] ledger::Hash digestOf(const Evidence& evidence);

/// One chain's part in a run.
struct ChainPart
{
    Id device = {};
    Id chain = {};
    std::optional<ledger::PublicKey> key = {}; ///< None: the chain's first entry is not there or cannot be read.
    std::uint64_t first = 0;                   ///< Sequence of its first entry of the run.
    std::uint64_t last = 0;
    std::uint64_t entries = 0; ///< Of the run; between first and last stand others where it is fewer.

    /// Entries of the chain between the first and the last one of the run that are not of the run, as far as the
    /// evidence tells: that none of them is of the run, the journal alone can show.
    [[nodiscard]] std::uint64_t others() const { return last - first + 1 - entries; }
};

/// In the order of their first entries of the run.
[[nodiscard]] std::vector<ChainPart> chainsOf(const Evidence& evidence);

/// What of `evidence` is not as it was written, in sentences: an entry that was altered, is signed by another key or
/// by none that is known, does not follow the one before it where both are there, or is of another run. That entries
/// are missing where the others leave a gap does not show (`ChainPart::others`), nor does it at the very end.
[[nodiscard]] std::vector<std::string> faultsIn(const Evidence& evidence);

} // namespace loopside::report
