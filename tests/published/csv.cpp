// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "published/csv.h"

#include "published/printed.h"

#include <fstream>
#include <stdexcept>

namespace loopside::published {

namespace {

bool isNumber(const std::string& text)
{
    return !text.empty() && text.find_first_not_of("0123456789.-") == std::string::npos;
}

std::vector<std::string> fieldsOf(const std::string& line)
{
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (const char sign : line) {
        if (sign == '"') {
            quoted = !quoted;
        } else if (sign == ',' && !quoted) {
            fields.emplace_back();
        } else {
            fields.back() += sign;
        }
    }
    return fields;
}

} // namespace

const std::string& Row::text(const std::string& title) const
{
    const auto found = fields_.find(title);
    if (found == fields_.end()) {
        throw std::runtime_error("a row has no field " + title);
    }
    return found->second;
}

double Row::number(const std::string& title) const
{
    return numberIn(text(title));
}

std::map<double, std::string> Row::grid() const
{
    std::map<double, std::string> grid;
    for (const auto& [title, field] : fields_) {
        if (isNumber(title)) {
            grid.emplace(std::stod(title), title);
        }
    }
    return grid;
}

std::vector<Row> rowsOf(const std::string& file)
{
    std::ifstream stream(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/published/data/" + file);
    std::string line;
    if (!std::getline(stream, line) || !line.starts_with("# ")) {
        throw std::runtime_error(file + " cannot be read or does not begin with its source");
    }
    std::getline(stream, line);
    const std::vector<std::string> titles = fieldsOf(line);
    std::vector<Row> rows;
    while (std::getline(stream, line)) {
        const std::vector<std::string> fields = fieldsOf(line);
        if (fields.size() != titles.size()) {
            throw std::runtime_error("another number of fields than titles in: " + line);
        }
        std::map<std::string, std::string> row;
        for (std::size_t i = 0; i < fields.size(); ++i) {
            row.emplace(titles[i], fields[i]);
        }
        rows.emplace_back(std::move(row));
    }
    return rows;
}

} // namespace loopside::published
