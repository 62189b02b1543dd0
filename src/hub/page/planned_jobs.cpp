// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/planned_jobs.h"

#include "base/text.h"
#include "site/columns.h"

#include <algorithm>

namespace loopside::page {

namespace {

bool isColumn(const std::string& name)
{
    return std::ranges::any_of(site::membersOf("job"), [&](const site::Member& member) { return member.name == name; });
}

bool mayStandInFile(const std::string& text)
{
    return text.find_first_of("\"\r\n\t") == std::string::npos && text.find('\0') == std::string::npos;
}

} // namespace

Result<site::Preview> jobInForm(const JobForm& form, const Known& known)
{
    std::string names;
    std::string fields;
    for (const auto& [name, text] : form) {
        if (!isColumn(name) || !mayStandInFile(text)) {
            return fail(Errc::Malformed, "the field \"" + quotable(name) + "\" cannot be taken",
                        {"page.refused.request", {}});
        }
        names += (names.empty() ? "" : ",") + name;
        fields += (fields.empty() ? "\"" : ",\"") + text + "\"";
    }
    return site::previewOf("form", names + "\n" + fields + "\n", "job", known.site, known.state->stock);
}

Result<site::Preview> jobsInFile(const std::string& file, const std::string& text, const Known& known)
{
    return site::previewOf(quotable(file), text, "job", known.site, known.state->stock);
}

bool isWhole(const site::Preview& preview)
{
    return preview.count(site::RowFate::Unreadable) == 0;
}

Json faultsOf(const site::Preview& preview, const words::Words& words)
{
    Json faults = Json::array();
    for (const site::PreviewRow& row : preview.rows) {
        for (const site::RowFault& fault : row.faults) {
            faults.push_back({{"line", row.line},
                              {"column", fault.column},
                              {"value", fault.value},
                              {"what", words.say(fault.what)},
                              {"todo", fault.todo.id.empty() ? std::string() : words.say(fault.todo)}});
        }
    }
    return faults;
}

} // namespace loopside::page
