// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/bundle.h"

#include "base/text.h"
#include "ledger/json_parts.h"
#include "ledger/line.h"
#include "sync/admit.h"
#include "sync/files.h"
#include "sync/layout.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

namespace loopside::sync {

namespace {

using Json = nlohmann::ordered_json;
using ledger::Entry;
using ledger::JsonReader;

constexpr std::string_view versionKey = "loopside_bundle";
constexpr int version = 1;
constexpr std::string_view purpose{"loopside bundle\0", 16};
constexpr std::size_t siteBytesMax = 1000;

std::string messageFor(const ledger::Hash& digest)
{
    std::string message(purpose);
    append(message, digest);
    return message;
}

std::string about(const BundleTitle& title)
{
    const std::string of = title.site.empty() ? "" : " of " + title.site;
    return "What a Loopside tablet recorded" + of + ": " + std::to_string(title.entries) + " entries, "
        + std::to_string(title.attachments)
        + " attachments. To look at it: loopside-cli bundle show FILE. To take it in: loopside-cli bundle import FILE.";
}

std::string lineOf(const BundleTitle& title)
{
    Json chains = Json::array();
    for (const BundledChain& chain : title.chains) {
        chains.push_back({{"device", toText(chain.device)},
                          {"key", toHex(chain.key)},
                          {"chain", toText(chain.chain)},
                          {"first", chain.first},
                          {"last", chain.last}});
    }
    Json losses = Json::array();
    for (const ledger::Loss& loss : title.losses) {
        losses.push_back({{"chain", toText(loss.chain)}, {"after", loss.after}, {"before", loss.before}});
    }
    const Json json = {{std::string(versionKey), version},
                       {"about", about(title)},
                       {"site", title.site},
                       {"made", utcText(title.madeAtMs)},
                       {"made_ms", title.madeAtMs},
                       {"device", toText(title.device)},
                       {"key", toHex(title.key)},
                       {"entries", title.entries},
                       {"attachments", title.attachments},
                       {"chains", chains},
                       {"missing", losses}};
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

template<class Read>
auto readList(const JsonReader& object, std::string_view key, Read read)
{
    std::vector<std::invoke_result_t<Read, JsonReader>> list;
    const auto items = object.at(key).items();
    if (items.size() > bundleListedMost) {
        object.at(key).refuse("a bundle lists at most " + std::to_string(bundleListedMost));
    }
    std::ranges::transform(items, std::back_inserter(list), read);
    return list;
}

BundledChain chainOf(const JsonReader& chain)
{
    chain.onlyKeys({"device", "key", "chain", "first", "last"});
    return {ledger::idOf(chain.at("device")), ledger::hexOf<32>(chain.at("key")), ledger::idOf(chain.at("chain")),
            ledger::wholeOf<std::uint64_t>(chain.at("first")), ledger::wholeOf<std::uint64_t>(chain.at("last"))};
}

BundleTitle readTitle(const JsonReader& object)
{
    object.onlyKeys({versionKey, "about", "site", "made", "made_ms", "device", "key", "entries", "attachments",
                     "chains", "missing"});
    BundleTitle title;
    title.site = object.at("site").text();
    if (title.site.size() > siteBytesMax) {
        object.at("site").refuse("this is too long for the name of a site");
    }
    title.madeAtMs = ledger::wholeOf<std::int64_t>(object.at("made_ms"));
    title.device = ledger::idOf(object.at("device"));
    title.key = ledger::hexOf<32>(object.at("key"));
    title.entries = ledger::wholeOf<std::uint64_t>(object.at("entries"));
    title.attachments = ledger::wholeOf<std::uint64_t>(object.at("attachments"));
    title.chains = readList(object, "chains", chainOf);
    title.losses = readList(object, "missing", ledger::lossOf);
    return title;
}

/// A line that announces the file of an attachment.
struct Announced
{
    std::string hash;
    std::size_t bytes = 0;
};

Announced readAnnounced(const JsonReader& object)
{
    object.onlyKeys({"attachment", "bytes"});
    const auto hash = toHex(ledger::hexOf<32>(object.at("attachment")));
    const auto bytes = ledger::wholeOf<std::size_t>(object.at("bytes"));
    if (bytes == 0 || bytes > fileBytesMax) {
        object.at("bytes").refuse("an attachment's file has 1 to " + std::to_string(fileBytesMax) + " bytes");
    }
    return {hash, bytes};
}

struct Seal
{
    ledger::Hash digest = {};
    ledger::Signature signature = {};
};

std::string lineOf(const Seal& seal)
{
    return Json({{"sha256", toHex(seal.digest)}, {"signature", toHex(seal.signature)}}).dump();
}

Seal readSeal(const JsonReader& object)
{
    object.onlyKeys({"sha256", "signature"});
    return {ledger::hexOf<32>(object.at("sha256")), ledger::hexOf<64>(object.at("signature"))};
}

/// Goes through a bundle, piece by piece, and hashes what it passes.
class Reader
{
public:
    Reader(std::istream& in, const std::string& name) : in_{in}, name_{name} {}

    [[nodiscard]] Result<Bundle> read(const BundleTaker& take)
    {
        Bundle bundle;
        Done done = readTitleOf(bundle)
                        .and_then([&] { return readEntries(bundle.title, take); })
                        .and_then([&] { return readAttachments(bundle.title, take); })
                        .and_then([&] { return readEnd(bundle); });
        return done ? Result<Bundle>(std::move(bundle)) : fail(done.error());
    }

private:
    [[nodiscard]] tl::unexpected<Error> refuse(Errc code, const std::string& what) const
    {
        return fail(code, name_ + ": " + what);
    }

    [[nodiscard]] tl::unexpected<Error> refuseLine(const std::string& what) const
    {
        return refuse(Errc::Malformed, "line " + std::to_string(line_) + " " + what);
    }

    /// The next line, without its end; where that is missing the file was cut.
    [[nodiscard]] Result<std::string> nextLine()
    {
        ++line_;
        std::string line;
        char sign = 0;
        while (in_.get(sign) && sign != '\n') {
            line += sign;
            if (line.size() > ledger::JsonLimits{}.bytes) {
                return refuseLine("is longer than any line of a bundle");
            }
        }
        if (in_.bad()) {
            return refuse(Errc::Io, "cannot be read");
        }
        if (!in_) {
            return refuse(Errc::Malformed,
                          "the file was cut short: its line " + std::to_string(line_)
                              + " is not there to its end. Copy the bundle again");
        }
        return line;
    }

    void pass(const std::string& line)
    {
        digest_.add(line);
        digest_.add("\n");
        passed_ += line.size() + 1;
    }

    [[nodiscard]] Done readTitleOf(Bundle& bundle)
    {
        const auto line = nextLine();
        if (!line) {
            return fail(
                line_ == 1 && line.error().code == Errc::Malformed
                    ? Error{Errc::Malformed, name_ + ": this is no bundle of Loopside, or only a beginning of one"}
                    : line.error());
        }
        const auto number = ledger::readJson(
            *line, [](const JsonReader& object) { return ledger::wholeOf<int>(object.at(versionKey)); });
        if (!number) {
            return refuse(Errc::Malformed, "this is no bundle of Loopside");
        }
        if (*number > version) {
            return refuse(Errc::Incompatible,
                          "this bundle was made by a newer version of Loopside: update this one first");
        }
        auto title = ledger::readJson(*line, readTitle);
        if (!title) {
            return refuseLine("does not say what a bundle begins with: " + title.error().sentence);
        }
        bundle.title = *std::move(title);
        for (const BundledChain& chain : bundle.title.chains) {
            chains_.emplace(chain.chain, chain);
        }
        pass(*line);
        return {};
    }

    [[nodiscard]] Done readEntries(const BundleTitle& title, const BundleTaker& take)
    {
        for (std::uint64_t i = 0; i < title.entries; ++i) {
            const auto line = nextLine();
            if (!line) {
                return fail(line.error());
            }
            const auto entry = ledger::entryFromLine(*line);
            if (!entry) {
                return refuseLine("is no entry: " + entry.error().sentence);
            }
            const auto chain = chains_.find(entry->chain);
            if (chain == chains_.end() || chain->second.device != entry->header.device) {
                return refuseLine("is an entry of a chain that the first line does not name");
            }
            if (const Done entered = mayEnter(*entry, chain->second.key); !entered) {
                return refuse(entered.error().code, "line " + std::to_string(line_) + ": " + entered.error().sentence);
            }
            if (const Done taken = take.entry ? take.entry(*entry, passed_) : Done(); !taken) {
                return taken;
            }
            pass(*line);
        }
        return {};
    }

    [[nodiscard]] Done readAttachments(const BundleTitle& title, const BundleTaker& take)
    {
        for (std::uint64_t i = 0; i < title.attachments; ++i) {
            const auto line = nextLine();
            if (!line) {
                return fail(line.error());
            }
            const auto announced = ledger::readJson(*line, readAnnounced);
            if (!announced) {
                return refuseLine("announces no attachment: " + announced.error().sentence);
            }
            std::string file(announced->bytes, '\0');
            if (!in_.read(file.data(), static_cast<std::streamsize>(file.size())) || in_.get() != '\n') {
                return refuse(Errc::Malformed,
                              "the file was cut short or garbled in the attachment " + announced->hash
                                  + ". Copy the bundle again");
            }
            if (toHex(ledger::sha256(file)) != announced->hash) {
                return refuse(Errc::Corrupt, "the attachment " + announced->hash + " was altered");
            }
            pass(*line);
            if (const Done taken = take.attachment ? take.attachment(announced->hash, file, passed_) : Done(); !taken) {
                return taken;
            }
            pass(file);
        }
        return {};
    }

    [[nodiscard]] Done readEnd(Bundle& bundle)
    {
        const auto line = nextLine();
        if (!line) {
            return fail(line.error());
        }
        const auto seal = ledger::readJson(*line, readSeal);
        if (!seal || lineOf(*seal) != *line) {
            return refuseLine("is not the end that the first line lets expect"
                              + (seal ? "" : ": " + seal.error().sentence));
        }
        if (in_.peek() != std::istream::traits_type::eof()) {
            return refuse(Errc::Malformed, "something stands behind the end of the bundle");
        }
        bundle.digest = digest_.end();
        if (bundle.digest != seal->digest) {
            return refuse(Errc::Corrupt, "the bundle was altered or garbled since it was made. Copy it again");
        }
        if (!ledger::verifies(bundle.title.key, messageFor(bundle.digest), seal->signature)) {
            return refuse(Errc::Corrupt, "the bundle is not signed by the device that it says made it");
        }
        return {};
    }

    std::istream& in_;
    const std::string& name_;
    std::size_t line_ = 0;
    std::uint64_t passed_ = 0; ///< Bytes.
    ledger::Sha256 digest_;
    std::map<Id, BundledChain> chains_;
};

} // namespace

BundleWriter::BundleWriter(std::ostream& out, const BundleTitle& title) : out_{&out}
{
    write(lineOf(title) + '\n');
}

void BundleWriter::write(std::string_view bytes)
{
    digest_.add(bytes);
    out_->write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

void BundleWriter::add(const Entry& entry)
{
    write(ledger::lineOf(entry) + '\n');
}

void BundleWriter::add(const std::string& hash, std::string_view file)
{
    write(Json({{"attachment", hash}, {"bytes", file.size()}}).dump() + '\n');
    write(file);
    write("\n");
}

void BundleWriter::end(const ledger::DeviceKey& key)
{
    const ledger::Hash digest = digest_.end();
    *out_ << lineOf(Seal{digest, key.sign(messageFor(digest))}) << '\n';
}

Result<Bundle> readBundle(std::istream& in, const std::string& name, const BundleTaker& take)
{
    return Reader(in, name).read(take);
}

Result<Entry> bundledEntryAt(std::istream& in, std::uint64_t at)
{
    std::string line;
    in.clear();
    if (!in.seekg(static_cast<std::streamoff>(at)) || !std::getline(in, line)) {
        return fail(Errc::Malformed, "an entry of the bundle is not there any more: it was changed meanwhile");
    }
    auto entry = ledger::entryFromLine(line);
    const bool isWhole = entry && hashOf(*entry) == entry->hash;
    return isWhole ? entry
                   : fail(Errc::Malformed, "an entry of the bundle is another one now: it was changed meanwhile");
}

void ChainsGathered::add(const Entry& entry)
{
    Gathered& chain = chains_[entry.chain];
    ++chain.entries;
    chain.last = std::max(chain.last, entry.header.sequence);
    const auto opened = entry.kind == ledger::chainOpenedKind ? ledger::chainOpeningFrom(entry.body)
                                                              : fail(Errc::NotFound, "no opening");
    if (opened) {
        chain.opened = {opened->device, opened->publicKey, entry.chain, entry.header.sequence, 0};
    }
}

std::vector<BundledChain> ChainsGathered::chains() const
{
    std::vector<BundledChain> list;
    for (const auto& [id, chain] : chains_) {
        if (chain.opened) {
            list.push_back(*chain.opened);
            list.back().last = chain.last;
        }
    }
    return list;
}

bool ChainsGathered::has(const Id& chain) const
{
    const auto found = chains_.find(chain);
    return found != chains_.end() && found->second.opened;
}

std::uint64_t ChainsGathered::count(bool areOpened) const
{
    std::uint64_t entries = 0;
    for (const auto& [id, chain] : chains_) {
        entries += chain.opened.has_value() == areOpened ? chain.entries : 0;
    }
    return entries;
}

} // namespace loopside::sync
