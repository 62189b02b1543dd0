// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A record as one JSON file: its tables for people and programs, and the entries that they are made of, byte for byte,
// for an auditor. The layout: schema/README.md, section 3e. A program that has nothing but the file checks it so: every
// hash, link and signature, the digest, and that the tables are those that the entries come to.

#pragma once

#include "report/record.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::report {

/// A record file holds at most this many bytes.
inline constexpr std::size_t recordBytesMax = std::size_t{64} << 20U;

struct RecordFile
{
    std::string program; ///< Version that made the tables, such as "0.1.0".
    Telling telling = {};
    RunRecord record = {};
    Evidence evidence = {};
};

/// The record of the run that `evidence` is of, as `program` makes it. Of the names of `telling` it has only those of
/// people who wrote or are told of. Fails as of `recordOf`.
[[nodiscard]] Result<RecordFile> recordFileOf(std::string program, Evidence evidence, Telling telling);

/// The file, with line breaks so that people can read it.
[[nodiscard]] std::string jsonOf(const RecordFile& file);

/// What `jsonOf` wrote. Incompatible for a newer layout, Malformed for anything else.
[[nodiscard]] Result<RecordFile> recordFileFrom(std::string_view json);

/// What a check of a record file found.
struct RecordChecked
{
    std::vector<std::string> faults = {}; ///< What is not as it was written, in sentences.
    std::vector<std::string> notes = {};  ///< What this file alone cannot prove.
    std::string digest = {};              ///< Of the entries that are in it, 64 digits.
    std::size_t entries = 0;
    std::vector<ChainPart> chains = {};
};

/// Checks `file` as `program`, the version that runs: a difference in the tables is a fault; where another version
/// made them, the sentence says so.
[[nodiscard]] RecordChecked checkRecord(const RecordFile& file, std::string_view program);

/// What stands in the QR code of a printed record: it names the run and the digest that the file must have.
[[nodiscard]] std::string sealOf(const RunRecord& record);

/// Whether `seal`, read off a printed record, is the one of `file`; NotFound if it is no seal at all, Conflict, saying
/// what differs, otherwise.
[[nodiscard]] Done matchesSeal(const RecordFile& file, std::string_view seal);

} // namespace loopside::report
