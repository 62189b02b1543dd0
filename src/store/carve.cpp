// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/carve.h"

#include "store/entry_columns.h"
#include "store/page_layout.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::store {

namespace {

using ledger::Entry;

/// The columns of a row of `entries` in the order of schema/tablet/0001_journal.sql.
enum Column : std::size_t
{
    Position,
    Format,
    EntryId,
    Device,
    Chain,
    Sequence,
    Clock,
    Run,
    Person,
    EnteredAt,
    OffsetMin,
    Mono,
    Boot,
    ObservedAgo,
    ObservedHow,
    Kind,
    Body,
    Previous,
    EntryHash,
    Signature,
    ColumnCount
};

struct Varint
{
    std::uint64_t value = 0;
    std::size_t bytes = 0; ///< 0: cut off.
};

Varint varintAt(std::string_view bytes, std::size_t at)
{
    Varint read;
    for (std::size_t i = 0; i < 9; ++i) {
        if (at + i >= bytes.size()) {
            return {};
        }
        const auto byte = static_cast<std::uint8_t>(bytes[at + i]);
        if (i == 8) {
            return {read.value << 8U | byte, 9};
        }
        read.value = read.value << 7U | (byte & 0x7FU);
        if ((byte & 0x80U) == 0) {
            return {read.value, i + 1};
        }
    }
    return read;
}

constexpr std::uint64_t blob(std::uint64_t bytes)
{
    return 12 + 2 * bytes;
}

constexpr std::uint64_t text(std::uint64_t bytes)
{
    return 13 + 2 * bytes;
}

bool isInteger(std::uint64_t type)
{
    return (type >= 1 && type <= 6) || type == 8 || type == 9;
}

bool isTextUpTo(std::uint64_t type, std::uint64_t bytes)
{
    return type >= text(0) && type % 2 == 1 && type <= text(bytes);
}

std::size_t bytesOf(std::uint64_t type)
{
    constexpr std::array<std::size_t, 12> numbers = {0, 1, 2, 3, 4, 6, 8, 8, 0, 0, 0, 0};
    return type < numbers.size() ? numbers.at(type) : static_cast<std::size_t>((type - 12) / 2);
}

using Types = std::array<std::uint64_t, ColumnCount>;

/// Whether a row of these types can be an entry.
bool fitsEntry(const Types& types)
{
    const auto isId = [&](Column column) { return types.at(column) == blob(16); };
    const auto isNumber = [&](Column column) { return isInteger(types.at(column)); };
    return types[Position] == 0 && isNumber(Format) && isId(EntryId) && isId(Device) && isId(Chain)
        && isNumber(Sequence) && isNumber(Clock) && (types[Run] == 0 || isId(Run)) && isId(Person)
        && isNumber(EnteredAt) && isNumber(OffsetMin) && isNumber(Mono) && isId(Boot) && isNumber(ObservedAgo)
        && isTextUpTo(types[ObservedHow], ledger::textBytesMax) && isTextUpTo(types[Kind], ledger::textBytesMax)
        && types[Body] >= blob(0) && types[Body] % 2 == 0 && types[Body] <= blob(ledger::bodyBytesMax)
        && types[Previous] == blob(32) && types[EntryHash] == blob(32) && types[Signature] == blob(64);
}

/// What a record's header says, if it can be that of an entry.
struct RecordHeader
{
    Types types = {};
    std::size_t bytes = 0;
};

std::optional<RecordHeader> recordHeaderAt(std::string_view bytes, std::size_t at)
{
    const Varint size = varintAt(bytes, at);
    if (size.bytes == 0 || size.value < ColumnCount + 1 || size.value > 9 * (ColumnCount + 1)) {
        return std::nullopt;
    }
    RecordHeader header;
    header.bytes = static_cast<std::size_t>(size.value);
    std::size_t next = at + size.bytes;
    for (std::uint64_t& type : header.types) {
        const Varint read = varintAt(bytes, next);
        if (read.bytes == 0) {
            return std::nullopt;
        }
        type = read.value;
        next += read.bytes;
        if (header.types[Position] != 0) { // no entry, as almost everywhere: the rest need not be read
            return std::nullopt;
        }
    }
    const bool fits = next == at + header.bytes && fitsEntry(header.types);
    return fits ? std::optional(header) : std::nullopt;
}

/// Takes the values of a record one after the other.
class Values
{
public:
    Values(std::string_view payload, const RecordHeader& header)
        : rest_{payload.substr(header.bytes)}, types_{header.types}
    {
    }

    template<class Number>
    void take(Number& number)
    {
        const std::uint64_t type = types_.at(next_);
        const std::string_view bytes = takeBytes();
        std::uint64_t value = type == 9 ? 1 : 0;
        const bool isNegative = !bytes.empty() && (static_cast<std::uint8_t>(bytes[0]) & 0x80U) != 0;
        value = isNegative ? ~std::uint64_t{0} : value;
        for (const char byte : bytes) {
            value = value << 8U | static_cast<std::uint8_t>(byte);
        }
        number = static_cast<Number>(value);
    }

    void take(std::string& bytes) { bytes = takeBytes(); }

    void take(Id& id) { take(id.bytes); }

    void takeOrNone(Id& id) { take(id); } // of nothing there are no bytes

    template<std::size_t Size>
    void take(std::array<std::uint8_t, Size>& bytes)
    {
        const std::string_view value = takeBytes();
        std::copy_n(value.begin(), std::min(value.size(), Size), bytes.begin());
    }

private:
    std::string_view takeBytes()
    {
        const std::string_view value = rest_.substr(0, bytesOf(types_.at(next_++)));
        rest_.remove_prefix(value.size());
        return value;
    }

    std::string_view rest_;
    const Types& types_;
    std::size_t next_ = Format;
};

std::optional<Entry> entryFrom(std::string_view payload, const RecordHeader& header)
{
    std::size_t size = header.bytes;
    for (const std::uint64_t type : header.types) {
        size += bytesOf(type);
    }
    if (size != payload.size()) {
        return std::nullopt;
    }
    Values values(payload, header);
    Entry entry;
    takeEntry(values, entry);
    const bool holds = entry.format == ledger::entryFormat && hashOf(entry) == entry.hash;
    return holds ? std::optional(std::move(entry)) : std::nullopt;
}

/// All pages there are, in the file and in its log, by number; several of a number where the log has them.
class Pages
{
public:
    Pages(std::string_view database, std::string_view log)
        : database_{database}, log_{log}, databasePageBytes_{pageBytesOfDatabase(database)}
    {
        const std::size_t bytes = pageBytesOfLog(log);
        for (std::size_t i = 0; i < framesIn(log, bytes); ++i) {
            const Frame frame = frameAt(log, bytes, i);
            inLog_[frame.page].push_back(frame.content);
        }
    }

    void each(const std::function<void(std::string_view)>& take) const
    {
        for (std::size_t at = 0; at < database_.size(); at += databasePageBytes_) {
            take(database_.substr(at, databasePageBytes_));
        }
        for (const auto& [number, pages] : inLog_) {
            for (const std::string_view page : pages) {
                take(page);
            }
        }
    }

    /// Page `number` as it was written `ago` times before the last: nothing if it never was. Of the file itself comes
    /// last.
    [[nodiscard]] std::optional<std::string_view> find(std::uint32_t number, std::size_t ago) const
    {
        const auto found = inLog_.find(number);
        const std::size_t written = found == inLog_.end() ? 0 : found->second.size();
        if (ago < written) {
            return found->second[written - 1 - ago];
        }
        const std::size_t at = number == 0 ? database_.size() : (number - 1) * databasePageBytes_;
        return ago == written && at < database_.size() ? std::optional(database_.substr(at, databasePageBytes_))
                                                       : std::nullopt;
    }

private:
    std::string_view database_;
    std::string_view log_;
    std::size_t databasePageBytes_;
    std::map<std::uint32_t, std::vector<std::string_view>> inLog_;
};

/// A long entry: what of its payload stands in the page, and where it goes on.
struct Overflow
{
    std::string payload;
    std::uint32_t next = 0;
    std::size_t missing = 0;
};

/// Follows the pages of a long entry, taking of each the writing that is `ago` before the last, or the oldest there is.
std::optional<std::string> joined(const Pages& pages, Overflow from, std::size_t ago)
{
    while (from.missing > 0) {
        std::optional<std::string_view> page;
        for (std::size_t back = ago + 1; back > 0 && !page; --back) {
            page = pages.find(from.next, back - 1);
        }
        if (!page || page->size() <= 4) {
            return std::nullopt;
        }
        const std::string_view part = page->substr(4, from.missing);
        from.payload += part;
        from.missing -= part.size();
        from.next = numberAt(*page, 0);
    }
    return std::move(from.payload);
}

/// A cell is its size and its row's number, then the record.
constexpr std::size_t cellHeadLeast = 2;
constexpr std::size_t cellHeadMost = 18;

/// The entry whose cell begins at `at` of `page` and whose record at `begin`, if one does.
std::optional<Entry> entryAt(const Pages& pages, std::string_view page, std::size_t at, std::size_t begin)
{
    constexpr std::size_t writingsMax = 4;
    const Varint size = varintAt(page, at);
    const Varint row = size.bytes == 0 ? Varint{} : varintAt(page, at + size.bytes);
    if (row.bytes == 0 || at + size.bytes + row.bytes != begin
        || size.value > ledger::bodyBytesMax + 2 * pageBytesUsual) {
        return std::nullopt;
    }
    const std::optional<RecordHeader> header = recordHeaderAt(page, begin);
    if (!header) {
        return std::nullopt;
    }
    const auto payload = static_cast<std::size_t>(size.value);
    const std::size_t usable = page.size();
    if (payload <= usable - 35) {
        return entryFrom(page.substr(begin, payload), *header);
    }
    const std::size_t least = (usable - 12) * 32 / 255 - 23;
    const std::size_t fitting = least + (payload - least) % (usable - 4);
    const std::size_t local = fitting <= usable - 35 ? fitting : least;
    if (begin + local + 4 > page.size()) {
        return std::nullopt;
    }
    const Overflow overflow = {std::string(page.substr(begin, local)), numberAt(page, begin + local), payload - local};
    for (std::size_t ago = 0; ago < writingsMax; ++ago) {
        const std::optional<std::string> whole = joined(pages, overflow, ago);
        std::optional<Entry> entry = whole ? entryFrom(*whole, *header) : std::nullopt;
        if (entry) {
            return entry;
        }
    }
    return std::nullopt;
}

/// Gives every place of `page` to `look` at which the record of an entry may begin: behind its size a header says that
/// the position is no value of the row, something of the format, and then three times that an id follows. SQLite writes
/// each of these in one byte, the size too: the header of an entry has at most 27.
void eachRecordBegin(std::string_view page, const std::function<void(std::size_t)>& look)
{
    constexpr std::string_view threeIds = "\x2C\x2C\x2C";
    static_assert(blob(16) == 0x2C && EntryId == 2 && Device == 3 && Chain == 4);
    constexpr std::size_t before = 1 + EntryId;
    for (std::size_t ids = page.find(threeIds); ids != std::string_view::npos; ids = page.find(threeIds, ids + 1)) {
        if (ids >= before + cellHeadLeast && page[ids - before + 1] == '\0') {
            look(ids - before);
        }
    }
}

using Places = std::function<void(std::string_view page, const std::function<void(std::size_t)>& look)>;

/// Looks for entries whose record begins where `places` says. Where cells begin is told by the page itself, which may
/// be spoilt: so all that a cell may have before its record are tried.
void carveAt(std::string_view database, std::string_view log, const Places& places,
             const std::function<void(Entry)>& take)
{
    constexpr std::size_t pageBytesLeast = 512;
    const Pages pages(database, log);
    pages.each([&](std::string_view page) {
        if (page.size() < pageBytesLeast) {
            return;
        }
        places(page, [&](std::size_t begin) {
            for (std::size_t head = std::min(cellHeadMost, begin); head >= cellHeadLeast; --head) {
                if (std::optional<Entry> entry = entryAt(pages, page, begin - head, begin)) {
                    take(std::move(*entry));
                }
            }
        });
    });
}

} // namespace

void carveEntries(std::string_view database, std::string_view log, const std::function<void(Entry)>& take)
{
    carveAt(database, log, eachRecordBegin, take);
}

void carveEntriesSlowly(std::string_view database, std::string_view log, const std::function<void(Entry)>& take)
{
    carveAt(
        database, log,
        [](std::string_view page, const std::function<void(std::size_t)>& look) {
            for (std::size_t begin = cellHeadLeast; begin < page.size(); ++begin) {
                look(begin);
            }
        },
        take);
}

} // namespace loopside::store
