// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The library for comma-separated values, as this project wants it.

#pragma once

#define CSV_IO_NO_THREAD // the text is in memory: nothing to wait for
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wstringop-truncation" // its sentences are cut on purpose; none of them is shown
#include <libfccp/csv.h>
#pragma GCC diagnostic pop

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace loopside::site {

/// The lines of a text, one after the other, for the library to cut in place. The library's own reader of lines takes
/// 48 MB for each file, however short.
class Lines
{
public:
    static constexpr std::size_t bytesMax = std::size_t{1} << 24U; ///< As the library bounds a line, its end included.

    /// `text` outlives it and ends with the end of a line (`tableText`); what was read of it is changed.
    explicit Lines(std::string& text) : text_{text} {}

    /// The next line up to a zero that stands in the place of LF or CR LF; null behind the last one. One that is longer
    /// than `bytesMax` throws the library's line_length_limit_exceeded.
    [[nodiscard]] char* next()
    {
        if (next_ >= text_.size()) {
            return nullptr;
        }
        ++number_;
        const std::size_t begin = next_;
        const std::size_t end = text_.find('\n', begin);
        if (end - begin >= bytesMax) {
            throw io::error::line_length_limit_exceeded();
        }
        next_ = end + 1;
        text_[end] = '\0';
        if (end > begin && text_[end - 1] == '\r') {
            text_[end - 1] = '\0';
        }
        return &text_[begin];
    }

    /// Of the line that was read last, from 1.
    [[nodiscard]] unsigned number() const { return number_; }

private:
    std::string& text_;
    std::size_t next_ = 0;
    unsigned number_ = 0;
};

/// Cuts `line` in place into its fields, without blanks around them and without the quotation marks that hold one
/// together. Nothing if a quotation mark is not closed.
template<char separator>
std::optional<std::vector<char*>> cutInPlace(char* line)
{
    using Quotes = io::double_quote_escape<separator, '"'>;
    std::vector<char*> fields;
    char* begin = line;
    try {
        for (bool isLast = false; !isLast;) {
            char* end = begin + (Quotes::find_next_column_end(begin) - begin);
            isLast = *end == '\0';
            char* const next = isLast ? end : end + 1;
            *end = '\0';
            io::trim_chars<' ', '\t'>::trim(begin, end);
            Quotes::unescape(begin, end);
            fields.push_back(begin);
            begin = next;
        }
    } catch (const io::error::escaped_string_not_closed&) {
        return std::nullopt;
    }
    return fields;
}

} // namespace loopside::site
