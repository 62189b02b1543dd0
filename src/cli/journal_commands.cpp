// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/read_all.h"
#include "store/whole_check.h"

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

Json restoresJson(const std::vector<store::Restore>& restores)
{
    Json list = Json::array();
    for (const store::Restore& restore : restores) {
        Json missing = Json::array();
        for (const ledger::Loss& loss : restore.losses) {
            missing.push_back({{"chain", toText(loss.chain)}, {"after", loss.after}, {"before", loss.before}});
        }
        list.push_back(
            {{"at_ms", restore.atMs}, {"position", restore.position}, {"why", restore.why}, {"missing", missing}});
    }
    return list;
}

void tellRestores(const std::vector<store::Restore>& restores, std::int64_t torn, std::ostream& out)
{
    for (const store::Restore& restore : restores) {
        out << "made anew on " << utcText(restore.atMs) << " up to position " << restore.position << ": " << restore.why
            << "\n";
        for (const ledger::Loss& loss : restore.losses) {
            out << "  missing since then: entries " << loss.after + 1 << " to " << loss.before - 1 << " of chain "
                << toText(loss.chain) << "\n";
        }
    }
    if (torn > 0) {
        out << torn << " torn last writes were dropped, never shown as logged\n";
    }
}

void tellAttachments(const store::AttachmentsChecked& attachments, std::ostream& out)
{
    if (attachments.whole > 0) {
        out << attachments.whole << " attachments are as they were kept\n";
    }
    for (const std::string& hash : attachments.orphans) {
        out << "the file " << hash
            << " belongs to no entry: it was kept and its entry never written; it does no harm\n";
    }
    for (const std::string& hash : attachments.leftovers) {
        out << "the file " << hash << " was withdrawn and is still there; the tablet removes it at its next start\n";
    }
}

Json verifiedJson(const store::Verified& found)
{
    Json faults = Json::array();
    for (const ledger::Fault& fault : found.faults) {
        faults.push_back({{"position", fault.position}, {"sentence", fault.sentence}});
    }
    return {{"entries", found.entries},
            {"faults", faults},
            {"restores", restoresJson(found.restores)},
            {"torn_writes", found.torn},
            {"torn_write_waits", found.isTorn},
            {"attachments",
             {{"whole", found.attachments.whole},
              {"without_entry", found.attachments.orphans},
              {"withdrawn_and_there", found.attachments.leftovers}}}};
}

void tellVerified(const store::Verified& found, std::ostream& out)
{
    tellRestores(found.restores, found.torn, out);
    if (found.isTorn) {
        out << "a last write stands torn behind the others; the next start drops and counts it\n";
    }
    tellAttachments(found.attachments, out);
    for (const ledger::Fault& fault : found.faults) {
        out << fault.sentence << "\n";
    }
    if (found.faults.empty()) {
        out << found.entries << " entries; every hash, link and signature holds, and a tablet shows what they say\n";
    }
}

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
    const auto found = store::verifyWhole(path);
    if (!found) {
        return fail(found.error());
    }
    if (json) {
        out << verifiedJson(*found).dump() << "\n";
    } else {
        tellVerified(*found, out);
    }
    return found->faults.empty()
        ? Done()
        : fail(Errc::Corrupt, path + ": " + std::to_string(found->faults.size()) + " faults found");
}

} // namespace loopside::cli
