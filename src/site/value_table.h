// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A table in a text file: a header that names the columns, then a record a line. Commas, semicolons or tabs stand
// between the fields; a field in quotation marks may hold them. Lines end with LF or CR LF; a mark of the byte order at
// the beginning is passed over, and so are lines before the header that begin with #.

#pragma once

#include "base/result.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::site {

/// One line behind the header that could be cut into as many fields as the header names.
struct ValueRow
{
    int line = 0;                    ///< Of the file, from 1.
    std::vector<std::string> fields; ///< Without blanks around them.
};

/// A line that could not.
struct ValueFault
{
    int line = 0;
    Message what;
    Message todo; ///< What to do about it.
};

struct ValueTable
{
    char separator = ',';
    std::vector<std::string> columns; ///< In lower case.
    std::size_t padding = 0;          ///< Empty fields that stand behind the last column of the header.
    std::vector<ValueRow> rows;
    std::vector<ValueFault> faults;
};

/// `text` as the text of a table: without marks of the byte order, with an end to its last line. Malformed, naming
/// the file, if it is longer than `bytesMax` or no text in UTF-8.
[[nodiscard]] Result<std::string> tableText(const std::string& file, std::string text, std::size_t bytesMax);

/// The most that a table of records may hold; beyond it is Malformed.
inline constexpr std::size_t tableBytesMax = 2'000'000;
inline constexpr std::size_t tableRowsMax = 2000;
inline constexpr std::size_t tableColumnsMax = 100;

/// Cuts the text of `file` into rows. Empty lines are passed over. Malformed, with a sentence for people, if it is
/// empty, too long, no text in UTF-8, without a row, or if a column has no name or stands there twice.
[[nodiscard]] Result<ValueTable> readTable(const std::string& file, std::string text);

} // namespace loopside::site
