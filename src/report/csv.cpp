// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/csv.h"

#include <string_view>

namespace loopside::report {

namespace {

std::string quoted(const std::string& field)
{
    if (field.find_first_of(",\"\r\n") == std::string::npos) {
        return field;
    }
    std::string text = "\"";
    for (const char sign : field) {
        text += sign == '"' ? std::string("\"\"") : std::string(1, sign);
    }
    return text + "\"";
}

std::string linesOf(const Table& table)
{
    std::string csv;
    for (const Row& row : table.rows) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            csv += csvLine({table.id, row.id, table.columns[i].id, asCsvText(row.cells[i])});
        }
    }
    return csv;
}

} // namespace

std::string csvLine(const std::vector<std::string>& fields)
{
    std::string line;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        line += (i == 0 ? "" : ",") + quoted(fields[i]);
    }
    return line + "\r\n";
}

std::string asCsvText(const std::string& field)
{
    constexpr std::string_view begins = "=+-@\t\r";
    return !field.empty() && begins.find(field.front()) != std::string_view::npos ? "'" + field : field;
}

std::string csvOf(const RunRecord& record)
{
    std::string csv = csvLine({"part", "row", "column", "value"});
    for (const std::string& notice : record.notices) {
        csv += csvLine({"notice", "", "text", notice});
    }
    for (const Table& table : record.tables) {
        csv += linesOf(table);
    }
    csv += csvLine({"proof", "run", "value", toText(record.run)});
    csv += csvLine({"proof", "code", "value", record.code});
    csv += csvLine({"proof", "entries", "value", std::to_string(record.entries)});
    csv += csvLine({"proof", "digest", "value", record.digest});
    return csv;
}

} // namespace loopside::report
