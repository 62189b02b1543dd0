// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/preview.h"

#include "base/text.h"
#include "run/place_typed.h"
#include "run/stock.h"
#include "site/columns.h"
#include "site/typed_in.h"
#include "site/value_table.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace loopside::site {

namespace {

/// A column of the file and the member that it fills.
struct Filled
{
    std::size_t column = 0;
    const Member* member = nullptr;
    std::string unit;
};

/// The member that a column named so fills, with the unit in its name. "volume_gal" is "volume" in gallons.
std::optional<Filled> filledBy(std::size_t column, const std::string& name, const std::vector<Member>& members)
{
    for (const Member& member : members) {
        if (name == member.name) {
            return Filled{column, &member, {}};
        }
        const std::string start = member.name + "_";
        if (member.takesUnit && name.rfind(start, 0) == 0 && member.takesUnit(name.substr(start.size()))) {
            return Filled{column, &member, name.substr(start.size())};
        }
    }
    return std::nullopt;
}

/// Whether the file writes fractions with a comma somewhere, or stands between semicolons as tables of such places do.
bool usesCommas(const ValueTable& table)
{
    const auto isFraction = [](const std::string& field) {
        const std::string number = numberIn(field);
        const auto comma = number.find(',');
        return comma != std::string::npos && comma > 0 && comma + 1 < number.size();
    };
    return table.separator == ';' || std::any_of(table.rows.begin(), table.rows.end(), [&](const ValueRow& row) {
               return std::any_of(row.fields.begin(), row.fields.end(), isFraction);
           });
}

run::RecordPut recordIn(const Draft& draft, std::string_view kind)
{
    if (kind == "tank") {
        return draft.tank;
    }
    if (kind == "cart") {
        return draft.cart;
    }
    if (kind == "fluid") {
        return draft.fluid;
    }
    if (kind == "job") {
        return draft.job;
    }
    return draft.element;
}

void takeInto(Draft& draft, const run::RecordPut& record)
{
    if (const auto* tank = std::get_if<run::TankPut>(&record)) {
        draft.tank = *tank;
    } else if (const auto* cart = std::get_if<run::CartPut>(&record)) {
        draft.cart = *cart;
    } else if (const auto* fluid = std::get_if<run::FluidPut>(&record)) {
        draft.fluid = *fluid;
    } else if (const auto* element = std::get_if<run::ElementTypePut>(&record)) {
        draft.element = *element;
    } else if (const auto* job = std::get_if<run::JobPut>(&record)) {
        draft.job = *job;
    }
}

std::optional<run::SetupFault> faultIn(const Draft& draft, std::string_view kind)
{
    if (kind == "tank") {
        return run::faultIn(draft.tank.tank);
    }
    if (kind == "cart") {
        return draft.cart.stages.empty() ? std::optional(run::noStages())
                                         : run::faultIn(draft.cart.cart, draft.cart.stages);
    }
    return kind == "fluid" ? run::faultIn(draft.fluid.fluid)
        : kind == "job"    ? run::faultIn(draft.job.job)
                           : run::faultIn(draft.element.stage);
}

/// Reads a file row by row against what is known.
class Previewer
{
public:
    Previewer(const std::string& file, const ValueTable& table, std::string_view kind, const Site& site,
              const Stock& stock)
        : file_{file},
          table_{table},
          site_{site},
          stock_{stock},
          members_{membersOf(kind)},
          preview_{std::string(kind), {}}
    {
    }

    Result<Preview> read()
    {
        for (std::size_t i = 0; i < table_.columns.size(); ++i) {
            if (auto filled = filledBy(i, table_.columns[i], members_)) {
                filled_.push_back(*std::move(filled));
            } else {
                preview_.passedOver.push_back(quotable(table_.columns[i]));
            }
        }
        inOrderOfMembers();
        if (filled_.empty() || filled_.front().member != &members_.front()) {
            const std::string& name = members_.front().name;
            return fail(Errc::Malformed, file_ + ": there is no column \"" + name + "\"",
                        {"file.no-column", {{"file", file_}, {"column", name}}});
        }
        pointMayGroup_ = usesCommas(table_);
        for (const ValueRow& row : table_.rows) {
            preview_.rows.push_back(readRow(row));
        }
        for (const ValueFault& fault : table_.faults) {
            preview_.rows.push_back({fault.line, {}, RowFate::Unreadable, {}, {{{}, {}, fault.what, fault.todo}}});
        }
        std::stable_sort(preview_.rows.begin(), preview_.rows.end(),
                         [](const PreviewRow& a, const PreviewRow& b) { return a.line < b.line; });
        refuseSameNames();
        return std::move(preview_);
    }

private:
    /// A fluid is taken before its grade is, whatever the order of the columns.
    void inOrderOfMembers()
    {
        std::stable_sort(filled_.begin(), filled_.end(),
                         [](const Filled& a, const Filled& b) { return a.member < b.member; });
    }

    PreviewRow readRow(const ValueRow& row)
    {
        PreviewRow read{row.line, row.fields[filled_.front().column]};
        Draft draft;
        std::optional<run::RecordPut> before;
        if (!read.name.empty()) {
            before = recordNamed(site_, preview_.recordKind, read.name);
            if (before) {
                takeInto(draft, *before);
            }
        }
        readFields(row, !before, draft, read);
        if (read.faults.empty()) {
            finish(draft, read);
        }
        if (read.faults.empty()) {
            judge(draft, before, read);
        }
        if (read.put && preview_.recordKind == "tank") {
            read.odd = run::oddInPlace(draft.tank.tank, site_.tanks);
        }
        return read;
    }

    void readFields(const ValueRow& row, bool isNew, Draft& draft, PreviewRow& read) const
    {
        std::map<const Member*, std::size_t> given;
        for (const Filled& filled : filled_) {
            const std::string& text = row.fields[filled.column];
            if (text.empty()) {
                continue;
            }
            const bool isFirst = given.emplace(filled.member, filled.column).second;
            auto fault = isFirst ? filled.member->read(draft, {text, filled.unit, pointMayGroup_}, site_)
                                 : std::optional(FieldFault{{"file.fault.twice", {}}, {"file.do.twice", {}}});
            if (fault) {
                read.faults.push_back(
                    {table_.columns[filled.column], text, std::move(fault->what), std::move(fault->todo)});
            }
        }
        for (const Member& member : members_) {
            const bool isMissing = member.isNeeded && given.count(&member) == 0;
            if (isMissing && (isNew || &member == &members_.front())) {
                read.faults.push_back({columnOf(member),
                                       {},
                                       {"file.fault.needed", {}},
                                       {"file.do.needed", {{"column", columnOf(member)}}}});
            }
        }
    }

    /// As the file has it, or as it could be named.
    [[nodiscard]] std::string columnOf(const Member& member) const
    {
        const auto filled = std::find_if(filled_.begin(), filled_.end(),
                                         [&](const Filled& one) { return one.member == &member; });
        return filled == filled_.end() ? member.example : table_.columns[filled->column];
    }

    /// What only the whole record tells.
    void finish(Draft& draft, PreviewRow& read) const
    {
        auto& gauges = draft.cart.cart.gauges;
        gauges.resize(draft.cart.stages.size() + 1, gauges.back());
        if (const auto fault = faultIn(draft, preview_.recordKind)) {
            const bool isStageWanted = preview_.recordKind == "cart" && draft.cart.stages.empty();
            read.faults.push_back({{}, {}, fault->say, {isStageWanted ? "file.do.stage" : "file.do.record", {}}});
        }
    }

    void judge(const Draft& draft, const std::optional<run::RecordPut>& before, PreviewRow& read) const
    {
        const run::RecordPut after = recordIn(draft, preview_.recordKind);
        read.changes = before ? changesBetween(*before, after) : valuesOf(after);
        if (!before || !read.changes.empty()) {
            read.put = after;
        }
        if (draft.stock) {
            countStock(read.name, *draft.stock, read);
        }
        read.fate = !before ? RowFate::New : read.changes.empty() ? RowFate::Same : RowFate::Changed;
    }

    void countStock(const std::string& type, int counted, PreviewRow& read) const
    {
        const auto known = stock_.find(type);
        const run::StockStanding standing = known == stock_.end() ? run::StockStanding{} : known->second;
        if (counted != standing.elements) { // a move of none cannot be told: a first count of none stays untold
            read.stock = {type, counted - standing.elements, std::string(run::stockCounted)};
            read.changes.push_back({"/stock", standing.isCounted ? std::to_string(standing.elements) : std::string(),
                                    std::to_string(counted)});
        }
    }

    /// Which of them is meant, nobody knows: none is taken.
    void refuseSameNames()
    {
        std::map<std::string, std::vector<std::size_t>> byName;
        for (std::size_t i = 0; i < preview_.rows.size(); ++i) {
            byName[preview_.rows[i].name].push_back(i);
        }
        for (const auto& [name, rows] : byName) {
            for (std::size_t i = 0; !name.empty() && rows.size() > 1 && i < rows.size(); ++i) {
                PreviewRow& row = preview_.rows[rows[i]];
                const int other = preview_.rows[rows[i == 0 ? 1 : 0]].line;
                row.fate = RowFate::Unreadable;
                row.changes.clear();
                row.put.reset();
                row.stock.reset();
                row.odd.clear();
                row.faults.push_back({columnOf(members_.front()),
                                      name,
                                      {"file.fault.same-name", {{"line", std::to_string(other)}}},
                                      {"file.do.same-name", {}}});
            }
        }
    }

    const std::string& file_;
    const ValueTable& table_;
    const Site& site_;
    const Stock& stock_;
    const std::vector<Member>& members_;
    std::vector<Filled> filled_;
    bool pointMayGroup_ = false;
    Preview preview_;
};

} // namespace

std::string_view nameOf(RowFate fate)
{
    constexpr std::array<std::string_view, 4> names = {"new", "changed", "same", "unreadable"};
    return names.at(static_cast<std::size_t>(fate));
}

int Preview::count(RowFate fate) const
{
    return static_cast<int>(
        std::count_if(rows.begin(), rows.end(), [&](const PreviewRow& row) { return row.fate == fate; }));
}

run::PutRecords Preview::command() const
{
    run::PutRecords all;
    for (const PreviewRow& row : rows) {
        if (row.put) {
            all.records.push_back(*row.put);
        }
        if (row.stock) {
            all.stock.push_back(*row.stock);
        }
    }
    return all;
}

std::vector<run::Command> Preview::commands() const
{
    std::vector<run::Command> all;
    if (run::PutRecords records = command(); !records.records.empty() || !records.stock.empty()) {
        all.emplace_back(std::move(records));
    }
    for (const PreviewRow& row : rows) {
        if (row.say) {
            all.emplace_back(*row.say);
        }
    }
    return all;
}

Result<Preview> previewOf(const std::string& file, std::string text, std::string_view recordKind, const Site& site,
                          const Stock& stock)
{
    const auto table = readTable(file, std::move(text));
    if (!table) {
        return fail(table.error());
    }
    return Previewer(file, *table, recordKind, site, stock).read();
}

} // namespace loopside::site
