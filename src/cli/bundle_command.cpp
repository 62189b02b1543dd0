// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/at_hand.h"
#include "ledger/fold_check.h"
#include "ledger/memory_journal.h"
#include "ledger/read_all.h"
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
    return readSite(path).transform([](const site::Site& site) { return site.name; });
}

Result<std::ifstream> openBundle(const std::string& path)
{
    if (const Done there = mustBeThere(path); !there) {
        return fail(there.error());
    }
    std::ifstream file(path, std::ios::binary);
    if (!file || std::filesystem::is_directory(path)) {
        return fail(Errc::Io, path + " cannot be opened");
    }
    return file;
}

Result<sync::Bundle> readFrom(const std::string& path, const sync::BundleTaker& take = {})
{
    auto file = openBundle(path);
    return file ? sync::readBundle(*file, path, take) : fail(file.error());
}

/// What goes into a bundle.
struct Packed
{
    std::unique_ptr<store::SqliteJournal> journal; ///< Held still.
    sync::BundleTitle title = {};
    sync::ChainsGathered chains = {};
    std::vector<std::string> attachments = {};
};

Result<Packed> pack(const BundleOptions& options, const store::AttachmentFolder& folder)
{
    auto journal = openExisting(options.journal);
    const Done still = journal ? (*journal)->holdStill() : fail(journal.error());
    const auto losses = still ? store::lossesOf(**journal) : fail(still.error());
    const auto atHand = losses ? ledger::foldAtHand(**journal) : fail(losses.error());
    const auto hashes = atHand ? folder.hashes() : fail(atHand.error());
    if (!hashes) {
        return fail(hashes.error());
    }
    Packed packed{*std::move(journal)};
    const Done read = ledger::readAll(*packed.journal, [&](const ledger::Stored& stored) -> Done {
        packed.chains.add(stored.entry);
        return {};
    });
    if (!read) {
        return fail(read.error());
    }
    const std::set<std::string> withdrawn = store::withdrawnIn(atHand->folded.state);
    for (const std::string& hash : *hashes) {
        if (!withdrawn.contains(hash) && folder.file(hash)) {
            packed.attachments.push_back(hash);
        }
    }
    packed.title.chains = packed.chains.chains();
    packed.title.losses = *losses;
    packed.title.entries = packed.chains.entries();
    packed.title.attachments = packed.attachments.size();
    return packed;
}

Done writeTo(const std::string& path, const Packed& packed, const store::AttachmentFolder& folder,
             const ledger::DeviceKey& key)
{
    return writeWhole(path, [&](std::ostream& file) -> Done {
        sync::BundleWriter writer(file, packed.title);
        const Done read = ledger::readAll(*packed.journal, [&](const ledger::Stored& stored) -> Done {
            if (packed.chains.has(stored.entry.chain)) {
                writer.add(stored.entry);
            }
            return {};
        });
        if (!read) {
            return read;
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

/// A bundle that was checked, and where in its file its parts begin: they are read again when they are wanted.
struct Checked
{
    struct Attachment
    {
        std::string hash;
        std::uint64_t at = 0;
        std::size_t bytes = 0;
    };

    sync::Bundle bundle = {};
    std::vector<std::uint64_t> entries = {};
    std::vector<Attachment> attachments = {};
};

Result<Checked> check(const std::string& path)
{
    Checked checked;
    sync::BundleTaker take;
    take.entry = [&](const Entry&, std::uint64_t at) -> Done {
        checked.entries.push_back(at);
        return {};
    };
    take.attachment = [&](const std::string& hash, std::string_view file, std::uint64_t at) -> Done {
        checked.attachments.push_back({hash, at, file.size()});
        return {};
    };
    return readFrom(path, take).transform([&](sync::Bundle bundle) {
        checked.bundle = std::move(bundle);
        return std::move(checked);
    });
}

tl::unexpected<Error> wasChanged()
{
    return fail(Errc::Conflict, "the bundle was changed while it was being taken in: take it in again");
}

/// What a bundle comes to in a journal.
struct Plan
{
    std::vector<Put> outcomes = {}; ///< Of each entry.
    std::vector<std::pair<Id, std::uint64_t>> conflicts = {};
    std::set<std::string> withdrawn = {};

    [[nodiscard]] std::size_t count(Put outcome) const
    {
        return static_cast<std::size_t>(std::ranges::count(outcomes, outcome));
    }
};

/// Whether the bundle itself tells that entries in front of `entry` are gone for good.
bool isBehindLoss(const sync::BundleTitle& title, const Entry& entry)
{
    return std::ranges::any_of(title.losses, [&](const ledger::Loss& loss) {
        return loss.chain == entry.chain && loss.before <= entry.header.sequence;
    });
}

/// Each chain that is there already is signed by the key that it has there.
Done keysFit(const sync::BundleTitle& title, const sync::JournalShelf& shelf)
{
    for (const sync::BundledChain& chain : title.chains) {
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

/// Whether an entry with that outcome may be passed over or taken in.
Done mayBeTaken(const sync::BundleTitle& title, const Entry& entry, Put outcome)
{
    if (outcome == Put::Gap && !isBehindLoss(title, entry)) {
        return fail(Errc::Conflict,
                    "the bundle goes on with entry " + std::to_string(entry.header.sequence) + " of chain "
                        + toText(entry.chain)
                        + ", and the journal does not have what comes before: take in an earlier bundle first");
    }
    return outcome == Put::Created ? sync::mayBeFolded(entry) : Done();
}

Result<Plan> planFor(const Checked& checked, std::istream& file, const ledger::Journal& journal,
                     const sync::JournalShelf& shelf)
{
    const sync::BundleTitle& title = checked.bundle.title;
    if (const Done fit = keysFit(title, shelf); !fit) {
        return fail(fit.error());
    }
    Plan plan;
    std::vector<std::uint64_t> created;
    const auto outcomeOf = shelf.trial();
    for (const std::uint64_t at : checked.entries) {
        const auto entry = sync::bundledEntryAt(file, at);
        const auto outcome = entry ? outcomeOf(*entry) : fail(entry.error());
        const Done may = outcome ? mayBeTaken(title, *entry, *outcome) : fail(outcome.error());
        if (!may) {
            return fail(may.error());
        }
        plan.outcomes.push_back(*outcome);
        if (*outcome == Put::Created) {
            created.push_back(at);
        } else if (*outcome == Put::Conflict) {
            plan.conflicts.emplace_back(entry->chain, entry->header.sequence);
        }
    }
    const ledger::Further further{created.size(),
                                  [&](std::size_t number) { return sync::bundledEntryAt(file, created[number]); }};
    return ledger::foldedWith(journal, further).transform([&](const run::State& state) {
        plan.withdrawn = store::withdrawnIn(state);
        return std::move(plan);
    });
}

/// What taking in the bundle comes to. A journal that is not there is not made: something may still be refused.
Result<Plan> planOf(const BundleOptions& options, const Checked& checked)
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
    auto file = shelf ? openBundle(options.bundle) : fail(shelf.error());
    const auto plan = file ? planFor(checked, *file, *journal, **shelf) : fail(file.error());
    return plan ? plan : fail(plan.error().code, options.bundle + ": " + plan.error().sentence);
}

/// The files of the bundle that are not there, on disk before any entry that names them; how many.
Result<std::size_t> takeAttachments(const BundleOptions& options, const Checked& checked, const Plan& plan)
{
    auto folder = store::AttachmentFolder::besideJournal(options.journal);
    auto bundle = openBundle(options.bundle);
    if (!bundle) {
        return fail(bundle.error());
    }
    std::size_t taken = 0;
    for (const Checked::Attachment& attachment : checked.attachments) {
        if (plan.withdrawn.contains(attachment.hash) || folder.file(attachment.hash)) {
            continue;
        }
        std::string file(attachment.bytes, '\0');
        const bool isRead = bundle->seekg(static_cast<std::streamoff>(attachment.at))
            && bundle->read(file.data(), static_cast<std::streamsize>(file.size()));
        if (!isRead || toHex(ledger::sha256(file)) != attachment.hash) {
            return wasChanged();
        }
        if (const Done kept = folder.keepFile(attachment.hash, file); !kept) {
            return fail(kept.error());
        }
        ++taken;
    }
    return taken;
}

/// Puts the entries of a bundle where the plan has them, as they come.
class Putter
{
public:
    Putter(store::SqliteJournal& journal, const Plan& plan) : journal_{&journal}, plan_{&plan} {}

    [[nodiscard]] Done take(const Entry& entry)
    {
        if (next_ == plan_->outcomes.size()) {
            return wasChanged();
        }
        const Put outcome = plan_->outcomes[next_++];
        if (outcome == Put::Conflict) {
            aside_.push_back(entry);
        } else if (outcome == Put::Created) {
            created_.push_back(entry);
        }
        constexpr std::size_t piece = 1000;
        return created_.size() < piece ? Done() : append();
    }

    /// Once all were taken and are known to be the ones that were planned.
    [[nodiscard]] Done end(store::AsideFile& aside)
    {
        Done done = append();
        for (std::size_t i = 0; done && i < aside_.size(); ++i) {
            done = aside.keep(aside_[i]);
        }
        return done;
    }

private:
    [[nodiscard]] Done append()
    {
        const Done appended = journal_->append(created_).transform([](ledger::Position) {});
        created_.clear();
        return appended;
    }

    store::SqliteJournal* journal_;
    const Plan* plan_;
    std::size_t next_ = 0;
    std::vector<Entry> created_;
    std::vector<Entry> aside_;
};

Done putInto(const BundleOptions& options, const Checked& checked, const Plan& plan)
{
    const auto journal = openHeld(options.journal);
    if (!journal || (plan.count(Put::Created) == 0 && plan.conflicts.empty())) {
        return journal ? Done() : fail(journal.error());
    }
    store::AsideFile aside(options.journal);
    Putter putter(**journal, plan);
    sync::BundleTaker take;
    take.entry = [&](const Entry& entry, std::uint64_t) { return putter.take(entry); };
    return (*journal)->inOneWrite([&]() -> Done {
        const auto bundle = readFrom(options.bundle, take);
        if (!bundle || bundle->digest != checked.bundle.digest) {
            return bundle ? wasChanged() : fail(bundle.error());
        }
        return putter.end(aside);
    });
}

void tell(const BundleOptions& options, const Plan& plan, std::size_t attachments, std::ostream& out)
{
    if (options.json) {
        Json conflicts = Json::array();
        for (const auto& [chain, sequence] : plan.conflicts) {
            conflicts.push_back({{"chain", toText(chain)}, {"sequence", sequence}});
        }
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
    for (const auto& [chain, sequence] : plan.conflicts) {
        out << "entry " << sequence << " of chain " << toText(chain)
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
            out << Json({{"entries", packed->title.entries},
                         {"attachments", packed->attachments.size()},
                         {"left_out", packed->chains.leftOut()}})
                       .dump()
                << '\n';
            return;
        }
        out << packed->title.entries << " entries and " << packed->attachments.size() << " attachments in "
            << options.bundle << '\n';
        if (packed->chains.leftOut() > 0) {
            out << packed->chains.leftOut()
                << " entries were left out: the openings of their chains are lost, so nobody could check them\n";
        }
    });
}

Done importBundle(const BundleOptions& options, std::ostream& out)
{
    const auto lock = store::InstanceLock::take(options.journal);
    const auto site = lock ? siteName(options.site) : fail(lock.error());
    const auto checked = site ? check(options.bundle) : fail(site.error());
    const Done isOurs = checked ? mustBeOf(checked->bundle.title, *site, options.bundle) : fail(checked.error());
    if (!isOurs) {
        return isOurs;
    }
    const auto plan = planOf(options, *checked);
    if (!plan) {
        return fail(plan.error());
    }
    const auto attachments = takeAttachments(options, *checked, *plan);
    if (!attachments) {
        return fail(attachments.error());
    }
    return putInto(options, *checked, *plan).transform([&] { tell(options, *plan, *attachments, out); });
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
