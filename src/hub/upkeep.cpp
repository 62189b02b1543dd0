// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/upkeep.h"

#include "base/text.h"
#include "hub/putting.h"
#include "hub/sql_accounts.h"
#include "hub/sql_files.h"
#include "ledger/digest.h"
#include "ledger/json_parts.h"
#include "ledger/line.h"
#include "sync/admit.h"

#include <nlohmann/json.hpp>
#include <sodium.h>

#include <algorithm>
#include <limits>
#include <map>
#include <ostream>

namespace loopside::hub {

namespace {

using Json = nlohmann::ordered_json;
using ledger::Entry;
using ledger::JsonReader;
using sync::Held;

constexpr std::string_view versionKey = "loopside_hub_backup";
constexpr int version = 3; // 1 had no accounts, 2 no files

std::string lineOf(const Json& json)
{
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// Writes lines and remembers their digest.
class Writer
{
public:
    explicit Writer(std::ostream& out) : out_{&out} {}

    void line(const std::string& text)
    {
        const std::string whole = text + '\n';
        digest_.add(whole);
        *out_ << whole;
    }

    [[nodiscard]] Done end()
    {
        *out_ << toHex(digest_.end()) << '\n';
        out_->flush();
        return *out_ ? Done{} : fail(Errc::Io, "the backup could not be written: the disk may be full");
    }

private:
    std::ostream* out_;
    ledger::Sha256 digest_;
};

Json jsonOf(const Device& device)
{
    Json json = {{"device", toText(device.id)},
                 {"key", toHex(device.key)},
                 {"name", device.name},
                 {"enrolled_at", device.enrolledAtMs}};
    json["revoked_at"] = device.revokedAtMs ? Json(*device.revokedAtMs) : Json(nullptr);
    return json;
}

Json jsonOf(const page::Account& account)
{
    return {{"person", toText(account.person)},
            {"name", account.name},
            {"role", page::nameOf(account.role)},
            {"password_hash", account.passwordHash},
            {"is_out", account.isOut}};
}

Json jsonOf(const page::AuditLine& line)
{
    return {{"at", line.atMs}, {"by", toText(line.by)}, {"what", line.what}, {"whom", line.whom}};
}

/// Accounts, and what was done to them, the oldest first.
Done writeAccounts(Sql& sql, const Id& site, Writer& writer, Counted& counted)
{
    SqlAccounts store(sql, site);
    const auto accounts = store.all();
    const auto audit = accounts ? store.audit(std::numeric_limits<std::int64_t>::max()) : fail(accounts.error());
    if (!audit) {
        return fail(audit.error());
    }
    for (const page::Account& account : *accounts) {
        writer.line("@" + lineOf(jsonOf(account)));
        ++counted.accounts;
    }
    for (auto line = audit->rbegin(); line != audit->rend(); ++line) {
        writer.line("#" + lineOf(jsonOf(*line)));
    }
    return {};
}

/// A line with one sign in front: '+' in its place, '!' in its place and ahead, '-' aside.
void write(Writer& writer, char sign, const Entry& entry)
{
    writer.line(sign + ledger::lineOf(entry));
}

Done writeChain(const SqlHub& store, const Id& chain, Writer& writer, Counted& counted)
{
    const Done written = eachOf(store, chain, [&](const Held& held) -> Done {
        write(writer, held.isAhead ? '!' : '+', held.entry);
        ++counted.entries;
        return {};
    });
    const auto asides = written ? store.asides(chain) : fail(written.error());
    if (!asides) {
        return fail(asides.error());
    }
    for (const Entry& entry : *asides) {
        write(writer, '-', entry);
        ++counted.asides;
    }
    return {};
}

std::string inBase64(std::string_view bytes)
{
    constexpr int variant = sodium_base64_VARIANT_ORIGINAL;
    std::string text(sodium_base64_encoded_len(bytes.size(), variant), '\0');
    sodium_bin2base64(text.data(), text.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                      variant);
    text.pop_back(); // its zero
    return text;
}

/// None for what is no base64.
std::optional<std::string> fromBase64(std::string_view text)
{
    std::string bytes(text.size(), '\0');
    std::size_t size = 0;
    const bool isWhole = sodium_base642bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(),
                                           text.size(), nullptr, &size, nullptr, sodium_base64_VARIANT_ORIGINAL)
        == 0;
    bytes.resize(size);
    return isWhole ? std::optional(std::move(bytes)) : std::nullopt;
}

Done writeFiles(Sql& sql, const Id& site, Writer& writer, Counted& counted)
{
    return SqlFiles(sql, site).each([&](const Id& entry, const std::string& file) -> Done {
        writer.line("*" + lineOf({{"entry", toText(entry)}, {"file", inBase64(file)}}));
        ++counted.files;
        return {};
    });
}

Json gapsJson(const std::vector<ledger::Loss>& gaps)
{
    Json list = Json::array();
    for (const ledger::Loss& gap : gaps) {
        list.push_back({{"chain", toText(gap.chain)}, {"after", gap.after}, {"before", gap.before}});
    }
    return list;
}

Result<Counted> writeAll(Sql& sql, const SiteRecord& site, std::ostream& out)
{
    const SqlHub store(sql, site.site);
    const auto devices = DeviceRegister(sql, site.site).all();
    const auto tips = devices ? store.tips() : fail(devices.error());
    if (!tips) {
        return fail(tips.error());
    }
    std::vector<ledger::Loss> gaps;
    for (const sync::Tip& tip : *tips) {
        const auto some = store.gapsOf(tip.chain);
        if (!some) {
            return fail(some.error());
        }
        gaps.insert(gaps.end(), some->begin(), some->end());
    }
    Writer writer(out);
    writer.line(lineOf({{std::string(versionKey), version}, {"site", toText(site.site)}, {"missing", gapsJson(gaps)}}));
    Counted counted = {devices->size(), tips->size(), 0, 0};
    for (const Device& device : *devices) {
        writer.line("=" + lineOf(jsonOf(device)));
    }
    if (const Done written = writeAccounts(sql, site.site, writer, counted); !written) {
        return fail(written.error());
    }
    for (const sync::Tip& tip : *tips) {
        if (const Done written = writeChain(store, tip.chain, writer, counted); !written) {
            return fail(written.error());
        }
    }
    const Done ended = writeFiles(sql, site.site, writer, counted).and_then([&] { return writer.end(); });
    return ended ? Result<Counted>(counted) : fail(ended.error());
}

Device readDevice(const JsonReader& line)
{
    line.onlyKeys({"device", "key", "name", "enrolled_at", "revoked_at"});
    return {ledger::idOf(line.at("device")), ledger::hexOf<32>(line.at("key")), line.at("name").text(),
            ledger::wholeOf<std::int64_t>(line.at("enrolled_at")),
            line.ifThere("revoked_at", ledger::wholeOf<std::int64_t>)};
}

page::Account readAccount(const JsonReader& line)
{
    line.onlyKeys({"person", "name", "role", "password_hash", "is_out"});
    const auto role = page::roleNamed(line.at("role").text());
    if (!role) {
        line.at("role").refuse("this is no role that this version knows");
    }
    return {ledger::idOf(line.at("person")), line.at("name").text(), *role, line.at("password_hash").text(),
            line.at("is_out").boolean()};
}

page::AuditLine readAuditLine(const JsonReader& line)
{
    line.onlyKeys({"at", "by", "what", "whom"});
    return {ledger::wholeOf<std::int64_t>(line.at("at")), ledger::idOf(line.at("by")), line.at("what").text(),
            line.at("whom").text()};
}

struct Title
{
    Id site = {};
    std::vector<ledger::Loss> missing = {};
};

Result<Title> titleFrom(std::string_view line)
{
    const auto stated = ledger::readJson(
        line, [](const JsonReader& title) { return ledger::wholeOf<int>(title.at(versionKey)); });
    if (!stated) {
        return fail(Errc::Malformed, "this is no backup of a hub: " + stated.error().sentence);
    }
    if (*stated > version) {
        return fail(Errc::Incompatible, "the backup was written by a newer version of Loopside: update this one first");
    }
    return ledger::readJson(line, [](const JsonReader& title) {
        title.onlyKeys({versionKey, "site", "missing"});
        Title read = {ledger::idOf(title.at("site")), {}};
        for (const JsonReader& gap : title.at("missing").items()) {
            read.missing.push_back(ledger::lossOf(gap));
        }
        return read;
    });
}

/// What stands in front of the digest, if it is the right one.
Result<std::string_view> whole(std::string_view text)
{
    constexpr std::size_t digestLine = 65;
    if (text.size() > digestLine) {
        const std::string_view content = text.substr(0, text.size() - digestLine);
        if (text.substr(content.size()) == toHex(ledger::sha256(content)) + '\n' && content.ends_with('\n')) {
            return content;
        }
    }
    return fail(Errc::Corrupt, "the backup was cut short or altered: nothing was stored; take another one");
}

std::string_view takeLine(std::string_view& rest)
{
    const auto end = rest.find('\n');
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(end + 1);
    return line;
}

/// Puts the lines of a backup back, in pieces.
class Restoring
{
public:
    Restoring(Sql& sql, Title title)
        : title_{std::move(title)},
          register_{sql, title_.site},
          accounts_{sql, title_.site},
          files_{sql, title_.site},
          putting_{sql, title_.site}
    {
    }

    [[nodiscard]] Done take(std::string_view line)
    {
        const char sign = line.empty() ? '\0' : line.front();
        line.remove_prefix(line.empty() ? 0 : 1);
        if (sign == '=') {
            return takeDevice(line);
        }
        if (sign == '@') {
            return takeAccount(line);
        }
        if (sign == '#') {
            const auto told = ledger::readJson(line, readAuditLine);
            return told ? accounts_.addAsItIs(*told) : fail(told.error());
        }
        if (sign == '*') {
            return takeFile(line);
        }
        if (sign != '+' && sign != '!' && sign != '-') {
            return fail(Errc::Malformed, "a line of the backup says nothing that this version knows");
        }
        auto entry = ledger::entryFromLine(line);
        return entry ? takeEntry(sign, *std::move(entry)) : fail(entry.error());
    }

    /// What was put is there.
    [[nodiscard]] Result<Counted> end()
    {
        return putting_.finish().transform([&] { return counted_; });
    }

private:
    [[nodiscard]] Done takeDevice(std::string_view line)
    {
        const auto device = ledger::readJson(line, readDevice);
        if (!device) {
            return fail(device.error());
        }
        keys_[device->id] = device->key;
        ++counted_.devices;
        return register_.put(*device);
    }

    [[nodiscard]] Done takeAccount(std::string_view line)
    {
        const auto account = ledger::readJson(line, readAccount);
        if (!account) {
            return fail(account.error());
        }
        ++counted_.accounts;
        return accounts_.putAsItIs(*account);
    }

    /// Behind the entries.
    [[nodiscard]] Done takeFile(std::string_view line)
    {
        const auto told = ledger::readJson(line, [](const JsonReader& file) {
            file.onlyKeys({"entry", "file"});
            return std::pair(ledger::idOf(file.at("entry")), file.at("file").text());
        });
        if (!told) {
            return fail(told.error());
        }
        const auto file = fromBase64(told->second);
        const auto name = names_.find(told->first);
        if (!file || name == names_.end() || toHex(ledger::sha256(*file)) != name->second) {
            return fail(Errc::Corrupt, "the backup holds a file that none of its entries names: nothing was stored");
        }
        ++counted_.files;
        return files_.add(told->first, *file);
    }

    [[nodiscard]] Done takeEntry(char sign, Entry entry)
    {
        const auto key = keys_.find(entry.header.device);
        if (key == keys_.end()) {
            return fail(Errc::Conflict, "the backup holds an entry of a device that it does not name");
        }
        if (const Done may = sync::mayEnter(entry, key->second); !may) {
            return may;
        }
        const bool isFirst = entry.header.sequence == 1 && sign != '-';
        if (auto name = sync::fileNamedBy(entry)) {
            names_.emplace(entry.header.id, *std::move(name));
        }
        const Held held = {std::move(entry), sign == '!'};
        const auto outcome = putting_.put(held, title_.missing);
        if (!outcome) {
            return fail(outcome.error());
        }
        if (*outcome != (sign == '-' ? sync::Put::Conflict : sync::Put::Created)) {
            return fail(Errc::Corrupt, "the entries of the backup do not fit each other: nothing was stored");
        }
        counted_.chains += isFirst ? 1 : 0;
        ++(sign == '-' ? counted_.asides : counted_.entries);
        return {};
    }

    Title title_;
    DeviceRegister register_;
    SqlAccounts accounts_;
    SqlFiles files_;
    Putting putting_;
    std::map<Id, std::string> names_ = {}; ///< Of files, by the entry that adds one.
    std::map<Id, ledger::PublicKey> keys_;
    Counted counted_;
};

Result<Counted> restoreAll(Sql& sql, const Title& title, std::string_view lines, std::int64_t nowMs,
                           RandomSource& random)
{
    const auto there = sql.run("SELECT log_id FROM sites WHERE site_id = $1", {valueOf(title.site)});
    if (!there || !there->empty()) {
        return there
            ? fail(Errc::Conflict,
                   "the database holds this site already: nothing was changed. A backup goes into an empty one")
            : fail(there.error());
    }
    const Id log = IdMaker(random).next(nowMs);
    Restoring restoring(sql, title);
    const auto made = sql.run("INSERT INTO sites (site_id, log_id, made_at) VALUES ($1, $2, $3)",
                              {valueOf(title.site), valueOf(log), nowMs});
    Done done = made ? noteDeed(sql, title.site, nowMs, "the hub was restored from a backup") : fail(made.error());
    while (done && !lines.empty()) {
        done = restoring.take(takeLine(lines));
    }
    return done ? restoring.end() : fail(done.error());
}

/// Goes along one chain.
class ChainCheck
{
public:
    ChainCheck(const sync::Tip& tip, const ledger::PublicKey* key, std::vector<ledger::Loss> gaps,
               std::vector<std::string>& faults)
        : tip_{tip}, key_{key}, gaps_{std::move(gaps)}, faults_{&faults}
    {
    }

    void take(const Entry& entry)
    {
        const Done may = key_ == nullptr ? fail(Errc::Conflict, nameOf(entry) + " is of a device that is not enrolled")
                                         : sync::mayEnter(entry, *key_);
        if (!may) {
            faults_->push_back(may.error().sentence);
        }
        const bool isNext = entry.header.sequence == last_ + 1;
        if (isNext ? entry.previous != hash_ : !isTold(entry.header.sequence)) {
            faults_->push_back(nameOf(entry) + " does not go on from what stands before it");
        }
        last_ = entry.header.sequence;
        hash_ = entry.hash;
    }

    void end()
    {
        if (last_ != tip_.sequence || hash_ != tip_.hash) {
            faults_->push_back("the chain " + toText(tip_.chain) + " does not end where the hub says that it does");
        }
    }

private:
    [[nodiscard]] static std::string nameOf(const Entry& entry)
    {
        return "entry " + std::to_string(entry.header.sequence) + " of chain " + toText(entry.chain);
    }

    [[nodiscard]] bool isTold(std::uint64_t sequence) const
    {
        return std::ranges::find(gaps_, ledger::Loss{tip_.chain, last_, sequence}) != gaps_.end();
    }

    sync::Tip tip_;
    const ledger::PublicKey* key_;
    std::vector<ledger::Loss> gaps_;
    std::vector<std::string>* faults_;
    std::uint64_t last_ = 0;
    ledger::Hash hash_ = {};
};

} // namespace

Result<Counted> writeBackup(Sql& sql, const SiteRecord& site, std::ostream& out)
{
    return inTransaction(sql, site.site, [&] { return writeAll(sql, site, out); });
}

Result<Counted> restoreBackup(Sql& sql, std::string_view text, std::int64_t nowMs, RandomSource& random)
{
    auto lines = whole(text);
    const auto title = lines ? titleFrom(takeLine(*lines)) : fail(lines.error());
    if (!title) {
        return fail(title.error());
    }
    return inTransaction(sql, title->site, [&] { return restoreAll(sql, *title, *lines, nowMs, random); });
}

namespace {

/// Looks at the file that `entry` adds, if it adds one that is here.
Done checkFile(const SqlFiles& files, const Entry& entry, Verified& verified)
{
    const auto name = sync::fileNamedBy(entry);
    const auto file = name ? files.of(entry.header.id) : Result<std::optional<std::string>>();
    if (!file || !*file) {
        return file ? Done{} : fail(file.error());
    }
    ++verified.counted.files;
    if (toHex(ledger::sha256(**file)) != *name) {
        verified.faults.push_back("the file " + *name + " was altered");
    }
    return {};
}

} // namespace

Result<Verified> verify(Sql& sql, const SiteRecord& site)
{
    const SqlHub store(sql, site.site);
    const SqlFiles files(sql, site.site);
    const auto devices = DeviceRegister(sql, site.site).all();
    const auto tips = devices ? store.tips() : fail(devices.error());
    if (!tips) {
        return fail(tips.error());
    }
    std::map<Id, ledger::PublicKey> keys;
    for (const Device& device : *devices) {
        keys[device.id] = device.key;
    }
    Verified verified = {{devices->size(), tips->size(), 0, 0}, {}};
    for (const sync::Tip& tip : *tips) {
        auto gaps = store.gapsOf(tip.chain);
        const auto asides = gaps ? store.asides(tip.chain) : fail(gaps.error());
        if (!asides) {
            return fail(asides.error());
        }
        const auto key = keys.find(tip.device);
        ChainCheck check(tip, key == keys.end() ? nullptr : &key->second, *std::move(gaps), verified.faults);
        const Done looked = eachOf(store, tip.chain, [&](const Held& held) -> Done {
            check.take(held.entry);
            ++verified.counted.entries;
            return checkFile(files, held.entry, verified);
        });
        if (!looked) {
            return fail(looked.error());
        }
        check.end();
        verified.counted.asides += asides->size();
    }
    return verified;
}

} // namespace loopside::hub
