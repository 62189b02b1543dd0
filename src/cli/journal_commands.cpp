// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/logbook.h"
#include "ledger/verify.h"

#include <nlohmann/json.hpp>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;

Json entryJson(const ledger::Stored& stored)
{
    const ledger::Entry& entry = stored.entry;
    const run::Header& header = entry.header;
    return {{"position", stored.position},
            {"id", toText(header.id)},
            {"device", toText(header.device)},
            {"chain", toText(entry.chain)},
            {"sequence", header.sequence},
            {"run", header.run.isNone() ? Json() : Json(toText(header.run))},
            {"hybrid_clock", header.clock},
            {"wall_ms", header.entered.wallMs},
            {"offset_min", header.entered.offsetMin},
            {"mono_ns", header.entered.monoNs},
            {"boot", toText(header.entered.boot)},
            {"observed_ago_ms", header.observed.agoMs},
            {"observed_how", header.observed.how},
            {"person", toText(header.person)},
            {"kind", entry.kind},
            {"body", entry.body},
            {"hash", toHex(entry.hash)}};
}

/// Folding needs a clock and randomness at hand, but uses neither.
class NoClock final : public Clock
{
public:
    Stamp now() override { return {}; }
};

} // namespace

Done record(const std::string& path, bool json, std::ostream& out)
{
    const auto journal = openExisting(path);
    if (!journal) {
        return fail(journal.error());
    }
    return ledger::readAll(**journal, [&](const ledger::Stored& stored) -> Done {
        if (json) {
            out << entryJson(stored).dump(-1, ' ', false, Json::error_handler_t::replace) << "\n";
        } else {
            out << stored.position << "  " << stored.entry.kind << "  " << stored.entry.body << "\n";
        }
        return {};
    });
}

Done verify(const std::string& path, bool json, std::ostream& out)
{
    const auto journal = openExisting(path);
    if (!journal) {
        return fail(journal.error());
    }
    auto faults = ledger::verifyAll(**journal);
    std::size_t entries = 0;
    // A fault in reading stands among the faults already.
    (void)ledger::readAll(**journal, [&](const ledger::Stored&) { return ++entries, Done{}; });
    NoClock clock;
    SeededRandom random(0);
    const auto folded = ledger::Logbook::open(**journal, clock, random);
    if (!folded) {
        faults.push_back({0, folded.error().sentence});
    }
    Json list = Json::array();
    for (const auto& fault : faults) {
        list.push_back({{"position", fault.position}, {"sentence", fault.sentence}});
        if (!json) {
            out << fault.sentence << "\n";
        }
    }
    if (json) {
        out << Json({{"entries", entries}, {"faults", list}}).dump() << "\n";
    } else if (faults.empty()) {
        out << entries << " entries; every hash, link and signature holds\n";
    }
    return faults.empty() ? Done{} : fail(Errc::Corrupt, path + ": " + std::to_string(faults.size()) + " faults found");
}

} // namespace loopside::cli
