// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/value_table.h"

#include "base/text.h"
#include "site/csv.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <set>

namespace loopside::site {

namespace {

using Fields = std::vector<std::string>;

/// Cuts one line; nothing if a quotation mark is not closed. The library's own policies, for any number of columns.
template<char separator>
std::optional<Fields> cutAt(std::string line)
{
    const auto cut = cutInPlace<separator>(line.data());
    if (!cut) {
        return std::nullopt;
    }
    Fields fields;
    for (const char* const field : *cut) {
        fields.emplace_back(trimmed(field));
    }
    return fields;
}

std::optional<Fields> cut(const std::string& line, char separator)
{
    switch (separator) {
    case ';':
        return cutAt<';'>(line);
    case '\t':
        return cutAt<'\t'>(line);
    default:
        return cutAt<','>(line);
    }
}

/// What cuts the header into the most names; a comma if nothing does.
char separatorOf(const std::string& header)
{
    char best = ',';
    std::size_t most = 0;
    for (const char candidate : {',', ';', '\t'}) {
        const auto fields = cut(header, candidate);
        if (fields && fields->size() > most) {
            best = candidate;
            most = fields->size();
        }
    }
    return best;
}

Error malformed(std::string sentence, Message say)
{
    return {Errc::Malformed, std::move(sentence), std::move(say)};
}

/// Empty if the header can be: else what is wrong with it.
std::optional<Error> headerFault(const std::string& file, const Fields& columns)
{
    if (columns.size() > tableColumnsMax) {
        return malformed(file + ": the header names more than " + std::to_string(tableColumnsMax) + " columns",
                         {"file.columns", {{"file", file}, {"most", std::to_string(tableColumnsMax)}}});
    }
    std::set<std::string> names;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const bool isNew = names.insert(columns[i]).second;
        if (columns[i].empty()) {
            return malformed(file + ": column " + std::to_string(i + 1) + " has no name",
                             {"file.column-unnamed", {{"file", file}, {"column", std::to_string(i + 1)}}});
        }
        if (!isNew) {
            return malformed(file + ": the column \"" + quotable(columns[i]) + "\" stands there twice",
                             {"file.column-twice", {{"file", file}, {"column", quotable(columns[i])}}});
        }
    }
    return std::nullopt;
}

/// Spreadsheets write empty fields behind the last one; how many `fields` had too many.
std::size_t dropEmptyEnd(Fields& fields, std::size_t atLeast)
{
    const std::size_t before = fields.size();
    while (fields.size() > atLeast && fields.back().empty()) {
        fields.pop_back();
    }
    return before - fields.size();
}

void takeLine(ValueTable& table, const std::string& line, int number)
{
    auto fields = cut(line, table.separator);
    if (!fields) {
        table.faults.push_back({number, {"file.fault.quote", {}}, {"file.do.quote", {}}});
        return;
    }
    const bool isEmpty = std::all_of(fields->begin(), fields->end(), [](const auto& field) { return field.empty(); });
    if (isEmpty) {
        return;
    }
    if (fields->size() <= table.columns.size() + table.padding) {
        dropEmptyEnd(*fields, table.columns.size());
    }
    if (fields->size() != table.columns.size()) {
        table.faults.push_back(
            {number,
             {"file.fault.fields",
              {{"fields", std::to_string(fields->size())}, {"columns", std::to_string(table.columns.size())}}},
             {table.separator == ',' ? "file.do.fields-comma" : "file.do.fields", {}}});
        return;
    }
    table.rows.push_back({number, std::move(*fields)});
}

void toLower(std::string& name)
{
    std::transform(name.begin(), name.end(), name.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
}

} // namespace

Result<std::string> tableText(const std::string& file, std::string text, std::size_t bytesMax)
{
    if (text.size() > bytesMax) {
        const std::string most = bytesMax >= 1'000'000 ? std::to_string(bytesMax / 1'000'000) + " MB"
                                                       : std::to_string(bytesMax) + " bytes";
        return fail(Errc::Malformed, file + " is larger than " + most,
                    {"file.too-long", {{"file", file}, {"most", most}}});
    }
    if (text.find('\0') != std::string::npos || !isUtf8(text)) {
        return fail(Errc::Malformed, file + ": this is not text in UTF-8", {"file.no-text", {{"file", file}}});
    }
    constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";
    while (text.starts_with(byteOrderMark)) {
        text.erase(0, byteOrderMark.size());
    }
    if (!text.ends_with('\n')) {
        text += '\n'; // the library looks one sign beyond a last line without its end
    }
    return text;
}

Result<ValueTable> readTable(const std::string& file, std::string text)
{
    auto readable = tableText(file, std::move(text), tableBytesMax);
    if (!readable) {
        return fail(readable.error());
    }
    Lines lines(*readable);
    ValueTable table;
    for (const char* line = lines.next(); line != nullptr; line = lines.next()) {
        const int number = static_cast<int>(lines.number());
        if (!table.columns.empty()) {
            takeLine(table, line, number);
        } else if (!trimmed(line).empty() && *line != '#') {
            table.separator = separatorOf(line);
            const auto columns = cut(line, table.separator);
            if (!columns) {
                return fail(malformed(file + ": a quotation mark in the header is not closed",
                                      {"file.header-quote", {{"file", file}}}));
            }
            table.columns = *columns;
            table.padding = dropEmptyEnd(table.columns, 1);
            std::for_each(table.columns.begin(), table.columns.end(), toLower);
            if (auto fault = headerFault(file, table.columns)) {
                return fail(std::move(*fault));
            }
        }
        if (table.rows.size() + table.faults.size() > tableRowsMax) {
            return fail(malformed(file + " has more than " + std::to_string(tableRowsMax) + " rows",
                                  {"file.rows", {{"file", file}, {"most", std::to_string(tableRowsMax)}}}));
        }
    }
    if (table.columns.empty()) {
        return fail(malformed(file + " is empty", {"file.empty", {{"file", file}}}));
    }
    if (table.rows.empty() && table.faults.empty()) {
        return fail(malformed(file + " has a header and no row behind it", {"file.no-rows", {{"file", file}}}));
    }
    return table;
}

} // namespace loopside::site
