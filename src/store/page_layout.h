// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The few places in SQLite's files that are read without SQLite: to judge a write-ahead log, and to find entries in a
// damaged file. Source: SQLite's "Database File Format"; from memory, held against files that SQLite wrote.

#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace loopside::store {

inline constexpr std::size_t logHeaderBytes = 32;
inline constexpr std::size_t frameHeaderBytes = 24;
inline constexpr std::size_t pageBytesUsual = 4096;

/// The number in the `count` bytes at `at`, the highest first. They must be there.
[[nodiscard]] inline std::uint32_t numberAt(std::string_view bytes, std::size_t at, std::size_t count = 4)
{
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < count; ++i) {
        number = number << 8U | static_cast<std::uint8_t>(bytes[at + i]);
    }
    return number;
}

[[nodiscard]] inline bool isPageSize(std::size_t bytes)
{
    return bytes >= 512 && bytes <= 65536 && (bytes & (bytes - 1)) == 0;
}

/// Size of the pages of a log, as its header states it; the usual one where that is none.
[[nodiscard]] inline std::size_t pageBytesOfLog(std::string_view log)
{
    const std::size_t stated = log.size() < 12 ? 0 : numberAt(log, 8);
    return isPageSize(stated) ? stated : pageBytesUsual;
}

/// Size of the pages of a database, as its header states it; the usual one where that is none.
[[nodiscard]] inline std::size_t pageBytesOfDatabase(std::string_view database)
{
    const std::size_t stated = database.size() < 18 ? 0 : numberAt(database, 16, 2);
    const std::size_t bytes = stated == 1 ? 65536 : stated;
    return isPageSize(bytes) ? bytes : pageBytesUsual;
}

/// A page as the write-ahead log holds it.
struct Frame
{
    std::uint32_t page = 0;
    std::uint32_t commit = 0; ///< Pages of the database after the commit that this frame ends; 0 within one.
    std::string_view salts;   ///< Eight bytes that all frames of one round of the log share.
    std::string_view sums;    ///< Two check sums over all of the round up to here.
    std::string_view head;    ///< The part of the frame's header that is summed.
    std::string_view content;
};

[[nodiscard]] inline std::size_t framesIn(std::string_view log, std::size_t pageBytes)
{
    return log.size() < logHeaderBytes ? 0 : (log.size() - logHeaderBytes) / (frameHeaderBytes + pageBytes);
}

/// Frame `index`, which must be there, whole.
[[nodiscard]] inline Frame frameAt(std::string_view log, std::size_t pageBytes, std::size_t index)
{
    const std::size_t at = logHeaderBytes + index * (frameHeaderBytes + pageBytes);
    return {numberAt(log, at),      numberAt(log, at + 4), log.substr(at + 8, 8),
            log.substr(at + 16, 8), log.substr(at, 8),     log.substr(at + frameHeaderBytes, pageBytes)};
}

} // namespace loopside::store
