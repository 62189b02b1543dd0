// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/entry_row.h"

#include "store/entry_columns.h"

namespace loopside::hub {

namespace {

SqlValue numberOf(std::uint64_t number)
{
    return static_cast<std::int64_t>(number);
}

/// Takes one column after the other, up to the first that does not fit.
class Columns
{
public:
    explicit Columns(const SqlRow& row) : row_{&row} {}

    template<class Number>
        requires std::is_integral_v<Number>
    void take(Number& number)
    {
        number = static_cast<Number>(row_->number(column_++));
    }
    void take(std::string& bytes) { bytes = row_->bytes(column_++); }
    void take(Id& id) { take(id.bytes); }
    void takeOrNone(Id& id) { take(id); } // none is all zero here

    template<std::size_t Size>
    void take(std::array<std::uint8_t, Size>& bytes)
    {
        const Done taken = hub::take(row_->bytes(column_++), bytes);
        done_ = done_ ? taken : done_;
    }

    [[nodiscard]] const Done& done() const { return done_; }

private:
    const SqlRow* row_;
    std::size_t column_ = 0;
    Done done_ = {};
};

} // namespace

std::vector<SqlValue> valuesOf(const Id& site, const sync::Held& held)
{
    const ledger::Entry& entry = held.entry;
    const run::Header& header = entry.header;
    return {valueOf(site),
            std::int64_t{entry.format},
            valueOf(header.id),
            valueOf(header.device),
            valueOf(entry.chain),
            numberOf(header.sequence),
            numberOf(header.clock),
            valueOf(header.run),
            valueOf(header.person),
            header.entered.wallMs,
            std::int64_t{header.entered.offsetMin},
            numberOf(header.entered.monoNs),
            valueOf(header.entered.boot),
            static_cast<std::int64_t>(header.observed.agoMs),
            std::string_view(header.observed.how),
            std::string_view(entry.kind),
            std::string_view(entry.body),
            valueOf(entry.previous),
            valueOf(entry.hash),
            valueOf(entry.signature),
            std::int64_t{held.isAhead ? 1 : 0}};
}

Result<sync::Held> heldFrom(const SqlRow& row)
{
    sync::Held held;
    Columns columns(row);
    store::takeEntry(columns, held.entry);
    columns.take(held.isAhead);
    return columns.done() ? Result<sync::Held>(std::move(held)) : fail(columns.done().error());
}

Result<sync::Ref> refFrom(const SqlRow& row)
{
    sync::Ref ref = {{}, {}, static_cast<std::uint64_t>(row.number(2))};
    const Done taken = take(row.bytes(0), ref.device.bytes).and_then([&] {
        return take(row.bytes(1), ref.chain.bytes);
    });
    return taken ? Result<sync::Ref>(ref) : fail(taken.error());
}

} // namespace loopside::hub
