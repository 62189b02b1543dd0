// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "published/checks_table.h"

#include <algorithm>
#include <iterator>
#include <map>

namespace loopside::published {

namespace {

using Lines = std::vector<std::string>;
using Rows = std::vector<Checks::Row>;

std::string cell(std::string text)
{
    for (std::size_t bar = text.find('|'); bar != std::string::npos; bar = text.find('|', bar + 2)) {
        text.insert(bar, "\\");
    }
    return text;
}

std::string lineOf(const Lines& cells)
{
    std::string line = "|";
    for (const std::string& text : cells) {
        line += " " + cell(text) + " |";
    }
    return line;
}

std::string sourceCell(const Source& source)
{
    return std::string(source.name) + (source.provenance == Provenance::ReadAtSecondHand ? " ²" : "");
}

std::string valuesCell(const Checks::Row& row)
{
    return std::to_string(row.values);
}

void addRows(Lines& lines, const Rows& rows)
{
    lines.insert(lines.end(),
                 {"", "| quantity | source | values | at | expected | got | tolerance | remark |",
                  "|---|---|--:|---|---|---|---|---|"});
    for (const Checks::Row& row : rows) {
        lines.push_back(lineOf({row.check.quantity, sourceCell(row.check.source), valuesCell(row), row.worst.at,
                                row.worst.expected, row.worst.got, row.allowed, row.check.note}));
    }
}

template<class Wanted>
Rows rowsWhere(const Checks& checks, Wanted wanted)
{
    Rows rows;
    std::copy_if(checks.rows().begin(), checks.rows().end(), std::back_inserter(rows), wanted);
    return rows;
}

void addSection(Lines& lines, const std::string& title, const std::string& text, const Rows& rows)
{
    if (rows.empty()) {
        return;
    }
    lines.insert(lines.end(), {"", "## " + title, "", text});
    addRows(lines, rows);
}

void addCountedTopics(Lines& lines, const Checks& checks)
{
    Lines topics;
    for (const Checks::Row& row : countedRows(checks)) {
        if (std::find(topics.begin(), topics.end(), row.topic) == topics.end()) {
            topics.push_back(row.topic);
        }
    }
    for (const std::string& topic : topics) {
        lines.insert(lines.end(), {"", "## " + topic});
        addRows(lines, rowsWhere(checks, [&](const Checks::Row& row) { return row.counts() && row.topic == topic; }));
    }
}

void addUncounted(Lines& lines, const Checks& checks)
{
    const auto of = [&](Provenance provenance) {
        return rowsWhere(
            checks, [=](const Checks::Row& row) { return !row.deviates && row.check.source.provenance == provenance; });
    };
    addSection(lines, "Not met, and why", "Values of outside sources that this program does not give. Not counted.",
               rowsWhere(checks, [](const Checks::Row& row) { return row.deviates; }));
    addSection(lines, "From memory", "Nobody looked these up. Not counted.", of(Provenance::FromMemory));
    addSection(lines, "Computed by us",
               "Computed by other programs of ours or in a spreadsheet from the formulas. Not counted: they show that "
               "the formulas are programmed right, not that they are the right ones.",
               of(Provenance::ComputedHere));
    addSection(lines, "Numerical witnesses",
               "The same formulas, solved or integrated by another library. Not counted: they show that the arithmetic "
               "is right.",
               of(Provenance::NumericalWitness));
}

void addSources(Lines& lines, const Checks& checks)
{
    std::map<std::string, std::pair<Source, std::size_t>> sources;
    for (const Checks::Row& row : countedRows(checks)) {
        const auto at = sources.try_emplace(std::string(row.check.source.name), row.check.source, 0).first;
        ++at->second.second;
    }
    lines.insert(lines.end(), {"", "## The sources", "", "| source | checks | what was read |", "|---|--:|---|"});
    for (const auto& [name, entry] : sources) {
        lines.push_back(lineOf({sourceCell(entry.first), std::to_string(entry.second), std::string(entry.first.seen)}));
    }
}

} // namespace

Rows countedRows(const Checks& checks)
{
    return rowsWhere(checks, [](const Checks::Row& row) { return row.counts(); });
}

std::set<std::string> countedSources(const Checks& checks)
{
    std::set<std::string> names;
    for (const Checks::Row& row : countedRows(checks)) {
        names.emplace(row.check.source.name);
    }
    return names;
}

Lines tableOf(const Checks& checks)
{
    const std::string count = std::to_string(countedRows(checks).size());
    const std::string sources = std::to_string(countedSources(checks).size());
    Lines lines = {
        "# The published checks",
        "",
        "Written by the program test_published, which makes every check in it; do not edit it. After a change:",
        "`GOLDEN=update build/dev/tests/published/test_published`, and read the difference.",
        "",
        "**" + count + " checks against " + sources + " outside sources.** A check is one quantity held against one "
            + "source: a table is one check, with as many values as it has, and the row shows the value that is "
              "furthest off. ² was read at second hand. \"As printed\" allows half of the last digit printed.",
    };
    addCountedTopics(lines, checks);
    addUncounted(lines, checks);
    addSources(lines, checks);
    return lines;
}

} // namespace loopside::published
