// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/at_hand.h"
#include "ledger/fold_check.h"
#include "ledger/memory_journal.h"
#include "ledger/read_all.h"
#include "site/site.h"
#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/instance_lock.h"
#include "store/key_file.h"
#include "store/recovery.h"
#include "sync/admit.h"
#include "sync/bundle.h"
#include "sync/journal_shelf.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace loopside::cli {

namespace {

using Json = nlohmann::ordered_json;
using ledger::Entry;
using sync::Put;

/// The name in the site file `path`; empty without one.
Result<std::string> siteName(const std::string& path)
{
    if (path.empty()) {
        return std::string();
    }
    constexpr std::size_t bytesMax = 16'000'000;
    return readFile(path, bytesMax).and_then(site::siteFrom).transform([](const site::Site& site) {
        return site.name;
    });
}

Result<sync::Bundle> readFrom(const std::string& path, const sync::AttachmentTaker& take = nullptr)
{
    if (const Done there = mustBeThere(path); !there) {
        return fail(there.error());
    }
    std::ifstream file(path, std::ios::binary);
    if (!file || std::filesystem::is_directory(path)) {
        return fail(Errc::Io, path + " cannot be opened");
    }
    return sync::readBundle(file, path, take);
}

/// What goes into a bundle.
struct Packed
{
    sync::BundleTitle title = {};
    std::vector<Entry> entries = {};
    std::size_t leftOut = 0; ///< Entries of chains whose opening is gone.
    std::vector<std::string> attachments = {};
};

Result<Packed> pack(const BundleOptions& options, const store::AttachmentFolder& folder)
{
    const auto journal = openExisting(options.journal);
    const auto losses = journal ? store::lossesOf(**journal) : fail(journal.error());
    const auto atHand = losses ? ledger::foldAtHand(**journal) : fail(losses.error());
    const auto hashes = atHand ? folder.hashes() : fail(atHand.error());
    if (!hashes) {
        return fail(hashes.error());
    }
    Packed packed;
    const Done read = ledger::readAll(**journal, [&](const ledger::Stored& stored) -> Done {
        packed.entries.push_back(stored.entry);
        return {};
    });
    if (!read) {
        return fail(read.error());
    }
    packed.title.chains = sync::chainsOf(packed.entries);
    packed.leftOut = std::erase_if(packed.entries, [&](const Entry& entry) {
        return std::ranges::find(packed.title.chains, entry.chain, &sync::BundledChain::chain)
            == packed.title.chains.end();
    });
    const std::set<std::string> withdrawn = store::withdrawnIn(atHand->folded.state);
    for (const std::string& hash : *hashes) {
        if (!withdrawn.contains(hash) && folder.file(hash)) {
            packed.attachments.push_back(hash);
        }
    }
    packed.title.losses = *losses;
    packed.title.entries = packed.entries.size();
    packed.title.attachments = packed.attachments.size();
    return packed;
}

Done writeTo(const std::string& path, const Packed& packed, const store::AttachmentFolder& folder,
             const ledger::DeviceKey& key)
{
    return writeWhole(path, [&](std::ostream& file) -> Done {
        sync::BundleWriter writer(file, packed.title);
        for (const Entry& entry : packed.entries) {
            writer.add(entry);
        }
        for (const std::string& hash : packed.attachments) {
            const auto attachment = folder.file(hash);
            if (!attachment) {
                return fail(attachment.error());
            }
            writer.add(hash, *attachment);
        }
        writer.end(key);
        return {};
    });
}

Done mustBeOf(const sync::BundleTitle& title, const std::string& site, const std::string& path)
{
    if (site.empty() || title.site == site) {
        return {};
    }
    return fail(Errc::Conflict,
                path + ": the bundle is of "
                    + (title.site.empty() ? "no site that it names" : "the site \"" + quotable(title.site) + "\"")
                    + ", not of \"" + quotable(site) + "\"");
}

/// What a bundle comes to in a journal.
struct Plan
{
    std::vector<Put> outcomes = {};
    std::set<std::string> withdrawn = {};

    [[nodiscard]] std::size_t count(Put outcome) const
    {
        return static_cast<std::size_t>(std::ranges::count(outcomes, outcome));
    }
};

std::vector<sync::Held> heldOf(const sync::Bundle& bundle)
{
    std::vector<sync::Held> held;
    std::ranges::transform(bundle.entries, std::back_inserter(held),
                           [](const Entry& entry) { return sync::Held{entry}; });
    return held;
}

/// Whether the bundle itself tells that entries in front of `entry` are gone for good.
bool isBehindLoss(const sync::Bundle& bundle, const Entry& entry)
{
    return std::ranges::any_of(bundle.title.losses, [&](const ledger::Loss& loss) {
        return loss.chain == entry.chain && loss.before <= entry.header.sequence;
    });
}

/// Each chain that is there already is signed by the key that it has there.
Done keysFit(const sync::Bundle& bundle, const sync::JournalShelf& shelf)
{
    for (const sync::BundledChain& chain : bundle.title.chains) {
        const auto opening = shelf.at(chain.chain, 1);
        if (!opening) {
            return fail(opening.error());
        }
        const auto known = *opening ? ledger::chainOpeningFrom((*opening)->entry.body) : fail(Errc::NotFound, "");
        if (known && (known->publicKey != chain.key || known->device != chain.device)) {
            return fail(Errc::Corrupt,
                        "the bundle has chain " + toText(chain.chain)
                            + " by another key than the journal: it is not what that device wrote");
        }
    }
    return {};
}

Result<Plan> planFor(const sync::Bundle& bundle, const ledger::Journal& journal, const sync::JournalShelf& shelf)
{
    auto outcomes = keysFit(bundle, shelf).and_then([&] { return shelf.outcomesOf(heldOf(bundle)); });
    if (!outcomes) {
        return fail(outcomes.error());
    }
    std::vector<Entry> created;
    for (std::size_t i = 0; i < outcomes->size(); ++i) {
        const Entry& entry = bundle.entries[i];
        if ((*outcomes)[i] == Put::Gap && !isBehindLoss(bundle, entry)) {
            return fail(Errc::Conflict,
                        "the bundle goes on with entry " + std::to_string(entry.header.sequence) + " of chain "
                            + toText(entry.chain)
                            + ", and the journal does not have what comes before: take in an earlier bundle first");
        }
        if ((*outcomes)[i] == Put::Created) {
            if (const Done may = sync::mayBeFolded(entry); !may) {
                return fail(may.error());
            }
            created.push_back(entry);
        }
    }
    return ledger::foldedWith(journal, created).transform([&](const run::State& state) {
        return Plan{*std::move(outcomes), store::withdrawnIn(state)};
    });
}

/// What taking in `bundle` comes to. A journal that is not there is not made: something may still be refused.
Result<Plan> planOf(const BundleOptions& options, const sync::Bundle& bundle)
{
    std::unique_ptr<ledger::Journal> journal = std::make_unique<ledger::MemoryJournal>();
    if (mustBeThere(options.journal)) {
        auto there = openHeld(options.journal);
        if (!there) {
            return fail(there.error());
        }
        journal = *std::move(there);
    }
    auto aside = store::AsideFile(options.journal).all();
    const auto shelf = aside ? sync::JournalShelf::open(
                                   *journal, [](const Entry&) -> Done { return {}; }, *std::move(aside))
                             : fail(aside.error());
    const auto plan = shelf ? planFor(bundle, *journal, **shelf) : fail(shelf.error());
    return plan ? plan : fail(plan.error().code, options.bundle + ": " + plan.error().sentence);
}

/// The files of the bundle that are not there, on disk before any entry that names them; how many.
Result<std::size_t> takeAttachments(const BundleOptions& options, const Plan& plan)
{
    auto folder = store::AttachmentFolder::besideJournal(options.journal);
    std::size_t taken = 0;
    const auto read = readFrom(options.bundle, [&](const std::string& hash, std::string_view file) -> Done {
        if (plan.withdrawn.contains(hash) || folder.file(hash)) {
            return {};
        }
        ++taken;
        return folder.keepFile(hash, file);
    });
    return read ? Result<std::size_t>(taken) : fail(read.error());
}

Done putInto(const BundleOptions& options, const sync::Bundle& bundle, const Plan& plan)
{
    const auto journal = openHeld(options.journal);
    if (!journal) {
        return fail(journal.error());
    }
    store::AsideFile aside(options.journal);
    auto before = aside.all();
    const auto shelf = before
        ? sync::JournalShelf::open(
              **journal, [&](const Entry& entry) { return aside.keep(entry); }, *std::move(before))
        : fail(before.error());
    if (!shelf) {
        return fail(shelf.error());
    }
    std::vector<sync::Held> held;
    for (std::size_t i = 0; i < plan.outcomes.size(); ++i) {
        if (plan.outcomes[i] != Put::Gap) {
            held.push_back({bundle.entries[i]});
        }
    }
    return (*shelf)->put(held, {}).transform([](const auto&) {});
}

void tell(const BundleOptions& options, const sync::Bundle& bundle, const Plan& plan, std::size_t attachments,
          std::ostream& out)
{
    Json conflicts = Json::array();
    for (std::size_t i = 0; i < plan.outcomes.size(); ++i) {
        if (plan.outcomes[i] == Put::Conflict) {
            const Entry& entry = bundle.entries[i];
            conflicts.push_back({{"chain", toText(entry.chain)}, {"sequence", entry.header.sequence}});
        }
    }
    if (options.json) {
        out << Json({{"new", plan.count(Put::Created)},
                     {"same", plan.count(Put::Same)},
                     {"conflicts", conflicts},
                     {"behind_gaps", plan.count(Put::Gap)},
                     {"attachments", attachments}})
                   .dump()
            << '\n';
        return;
    }
    out << plan.count(Put::Created) << " entries are new, " << plan.count(Put::Same) << " were there; " << attachments
        << " attachments taken in\n";
    for (const Json& conflict : conflicts) {
        out << "entry " << conflict["sequence"] << " of chain " << conflict["chain"].get<std::string>()
            << " is another one in the journal: both are kept, that of the bundle in " << options.journal << ".aside\n";
    }
    if (plan.count(Put::Gap) > 0) {
        out << plan.count(Put::Gap) << " entries stand behind a gap that the bundle tells of and were not taken in\n";
    }
}

} // namespace

Done exportBundle(const BundleOptions& options, std::ostream& out)
{
    const auto folder = store::AttachmentFolder::besideJournal(options.journal);
    const auto site = siteName(options.site);
    const auto key = site ? mustBeThere(options.key).and_then([&] { return store::loadOrCreateKey(options.key); })
                          : fail(site.error());
    auto packed = key ? pack(options, folder) : fail(key.error());
    if (!packed) {
        return fail(packed.error());
    }
    packed->title.site = *site;
    packed->title.madeAtMs = wallMs();
    packed->title.device = store::deviceOf(*key);
    packed->title.key = key->publicKey();
    return writeTo(options.bundle, *packed, folder, *key).transform([&] {
        if (options.json) {
            out << Json({{"entries", packed->entries.size()},
                         {"attachments", packed->attachments.size()},
                         {"left_out", packed->leftOut}})
                       .dump()
                << '\n';
            return;
        }
        out << packed->entries.size() << " entries and " << packed->attachments.size() << " attachments in "
            << options.bundle << '\n';
        if (packed->leftOut > 0) {
            out << packed->leftOut
                << " entries were left out: the openings of their chains are lost, so nobody could check them\n";
        }
    });
}

Done importBundle(const BundleOptions& options, std::ostream& out)
{
    const auto lock = store::InstanceLock::take(options.journal);
    const auto site = lock ? siteName(options.site) : fail(lock.error());
    const auto bundle = site ? readFrom(options.bundle) : fail(site.error());
    const Done isOurs = bundle ? mustBeOf(bundle->title, *site, options.bundle) : fail(bundle.error());
    if (!isOurs) {
        return isOurs;
    }
    const auto plan = planOf(options, *bundle);
    if (!plan) {
        return fail(plan.error());
    }
    const auto attachments = takeAttachments(options, *plan);
    if (!attachments) {
        return fail(attachments.error());
    }
    return putInto(options, *bundle, *plan).transform([&] { tell(options, *bundle, *plan, *attachments, out); });
}

Done showBundle(const BundleOptions& options, std::ostream& out)
{
    const auto bundle = readFrom(options.bundle);
    if (!bundle) {
        return fail(bundle.error());
    }
    const sync::BundleTitle& title = bundle->title;
    if (options.json) {
        Json chains = Json::array();
        for (const sync::BundledChain& chain : title.chains) {
            chains.push_back({{"device", toText(chain.device)},
                              {"chain", toText(chain.chain)},
                              {"first", chain.first},
                              {"last", chain.last}});
        }
        out << Json({{"site", title.site},
                     {"made", utcText(title.madeAtMs)},
                     {"device", toText(title.device)},
                     {"entries", title.entries},
                     {"attachments", title.attachments},
                     {"chains", chains},
                     {"missing", title.losses.size()}})
                   .dump()
            << '\n';
        return {};
    }
    out << "made on " << utcText(title.madeAtMs) << " by the device " << toText(title.device)
        << (title.site.empty() ? "" : ", site " + title.site) << '\n'
        << title.entries << " entries, " << title.attachments << " attachments\n";
    for (const sync::BundledChain& chain : title.chains) {
        out << "  entries " << chain.first << " to " << chain.last << " of chain " << toText(chain.chain) << ", device "
            << toText(chain.device) << '\n';
    }
    for (const ledger::Loss& loss : title.losses) {
        out << "  missing: entries " << loss.after + 1 << " to " << loss.before - 1 << " of chain "
            << toText(loss.chain) << '\n';
    }
    out << "every hash and signature holds\n";
    return {};
}

} // namespace loopside::cli
