// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What becomes of a journal whose files were cut or had a byte turned, held against what it held before.

#pragma once

#include "ledger/chain.h"
#include "ledger/journal.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace loopside::test {

class TempFolder;

enum class Outcome
{
    Whole,          ///< Every entry is there, and nothing was told.
    TornTold,       ///< The last write is gone, and told as torn.
    EndGone,        ///< Cut where a write ends, and no file shows that there was more.
    RecoveredWhole, ///< Damage was told, and every entry is there.
    RecoveredLoss,  ///< Damage was told, and so is every gap.
    Refused,        ///< Nothing could be opened; the files are as they were.
    Wrong           ///< An entry altered, invented, or gone without a word: must never be.
};

[[nodiscard]] std::string nameOf(Outcome outcome);

/// Which file is spoilt, and how.
enum class Harm
{
    FileCut,
    FileTurned,
    LogCut,
    LogTurned
};

/// A journal of `count` entries, more than 40, as a kill leaves it: the last `inLog` in its log, the older ones in its
/// file. The backup lacks the last 40.
class Sample
{
public:
    Sample(int count, bool hasBackup, std::size_t inLog = 20);

    /// The same without the file that names the journal's end.
    [[nodiscard]] Sample withoutWitness() const;

    [[nodiscard]] std::size_t bytes(Harm harm) const;

    /// Spoils the file at byte `at` (cut: from there on; turned: one bit of it), starts, and looks.
    [[nodiscard]] Outcome outcomeOf(Harm harm, std::size_t at) const;

    /// Starts on the journal `path`, of which only so many bytes of the log are left, and looks. Where the start makes
    /// it anew, it must keep `file` as it was.
    [[nodiscard]] Outcome judge(const std::string& path, const std::string& file, std::size_t logBytes) const;

    [[nodiscard]] const std::vector<ledger::Entry>& entries() const { return entries_; }

private:
    std::vector<ledger::Entry> entries_;
    std::string file_;
    std::string log_;
    std::string end_;
    std::shared_ptr<TempFolder> place_;   ///< Where each spoilt journal stands, one after the other.
    std::shared_ptr<TempFolder> backups_; ///< None: no backup.
};

using OutcomeTable = std::map<Outcome, std::size_t>;

/// The outcomes for every `step`th byte from `first` on.
[[nodiscard]] OutcomeTable outcomesOf(const Sample& sample, Harm harm, std::size_t step, std::size_t first = 0);

/// What the entries that are stored have become of the ones that were written.
struct Compared
{
    bool isSound = true;                 ///< None is altered, invented, in another order or place.
    std::uint64_t missing = 0;           ///< Of them, or of all if it is not sound.
    std::vector<ledger::Loss> gaps = {}; ///< Before the last one that is there.
};

/// `entries` are one chain, from its first on.
[[nodiscard]] Compared compared(const std::vector<ledger::Stored>& stored, const std::vector<ledger::Entry>& entries);

} // namespace loopside::test
