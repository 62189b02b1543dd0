// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/run_named.h"

#include "cli/options.h"
#include "run/run_code.h"

#include <algorithm>
#include <iterator>
#include <vector>

namespace loopside::cli {

namespace {

/// The runs that `read` has, in the order of their first entries.
Result<std::vector<Id>> runsIn(const ledger::EntryReader& read)
{
    std::vector<Id> runs;
    const Done done = read([&](const ledger::Stored& stored) -> Done {
        const Id& run = stored.entry.header.run;
        if (!run.isNone() && std::ranges::find(runs, run) == runs.end()) {
            runs.push_back(run);
        }
        return {};
    });
    return done ? Result<std::vector<Id>>(std::move(runs)) : fail(done.error());
}

std::string listed(const std::vector<Id>& runs)
{
    std::string text;
    for (const Id& run : runs) {
        text += (text.empty() ? "" : ", ") + run::codeOf(run) + " (" + toText(run) + ")";
    }
    return text;
}

/// The run that shows `code`; its id is asked for where that is no answer.
Result<Id> runOfCode(const ledger::EntryReader& read, const std::string& code)
{
    const auto runs = runsIn(read);
    if (!runs) {
        return fail(runs.error());
    }
    std::vector<Id> found;
    std::ranges::copy_if(*runs, std::back_inserter(found), [&](const Id& run) { return run::codeOf(run) == code; });
    if (found.empty()) {
        return fail(Errc::NotFound,
                    "no run shows " + code
                        + (runs->empty() ? "; the journal has none" : "; these are there: " + listed(*runs)));
    }
    return found.size() == 1 ? Result<Id>(found.front())
                             : fail(Errc::Conflict, "several runs show " + code + ", tell the id: " + listed(found));
}

} // namespace

Result<Id> runNamed(const ledger::EntryReader& read, const std::string& typed)
{
    if (const auto id = idFromText(typed)) {
        return *id;
    }
    const auto code = run::codeFrom(typed);
    return code ? runOfCode(read, *code) : fail(at("RUN", code.error()));
}

} // namespace loopside::cli
