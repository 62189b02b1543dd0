// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tables.h"

#include "base/text.h"

#include <algorithm>
#include <utility>

namespace loopside::scene {

namespace {

/// Where the table of `name` begins and ends.
Result<std::pair<std::size_t, std::size_t>> placeOf(const std::string& document, const std::string& name)
{
    const std::string begin = "<!-- begin " + name + " -->\n";
    const auto from = document.find(begin);
    const auto to = document.find("<!-- end " + name + " -->");
    if (from == std::string::npos || to == std::string::npos || to < from) {
        return fail(Errc::Malformed, "it has no marks for the table of " + name);
    }
    return std::pair(from + begin.size(), to);
}

/// A colour with its roles, or bare where the theme has no name for it (a mixture).
std::string named(const Found& found, const QString& theme, const QString& colour)
{
    const auto roles = found.roles.find(theme + QLatin1Char(' ') + colour);
    const std::string names = roles == found.roles.end() ? std::string() : roles->second.toStdString();
    return colour.toStdString() + (names.empty() ? "" : " " + names);
}

} // namespace

std::string targetTable(const Found& found)
{
    std::string table = "| target | mm | |\n|---|---|---|\n";
    for (const auto& [kind, smallest] : found.targets) {
        table += "| " + kind.toStdString() + " | " + fixed(smallest.widthMm, 1) + " × " + fixed(smallest.heightMm, 1)
            + " | " + (smallest.isPrimary ? "primary" : "") + " |\n";
    }
    return table;
}

std::string contrastTable(const Found& found)
{
    std::string table = "| theme | words | on | contrast | first seen |\n|---|---|---|---|---|\n";
    for (const auto& [pair, seen] : found.colours) {
        const auto& [theme, ink, ground] = pair;
        table += "| " + theme.toStdString() + " | " + named(found, theme, ink) + " | " + named(found, theme, ground)
            + " | " + fixed(seen.contrast, 1) + " | " + seen.scene.toStdString() + " |\n";
    }
    return table;
}

std::string keystrokeTable(const std::vector<Timed>& timed)
{
    std::string table = "| task | touches | operators | seconds |\n|---|---|---|---|\n";
    for (const Timed& one : timed) {
        table += "| " + one.name + " | " + std::to_string(one.touches.size()) + " | " + operatorsOf(one.touches) + " | "
            + fixed(secondsOf(one.touches), 1) + " |\n";
    }
    return table;
}

Result<std::string> tableIn(const std::string& document, const std::string& name)
{
    const auto place = placeOf(document, name);
    if (!place) {
        return fail(place.error());
    }
    return document.substr(place->first, place->second - place->first);
}

Result<std::string> withTable(const std::string& document, const std::string& name, const std::string& table)
{
    const auto place = placeOf(document, name);
    if (!place) {
        return fail(place.error());
    }
    return document.substr(0, place->first) + table + document.substr(place->second);
}

} // namespace loopside::scene
