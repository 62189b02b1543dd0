// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/results_file.h"

#include "base/text.h"
#include "oil/cleanliness_code.h"
#include "run/result_odd.h"
#include "run/samples.h"
#include "site/value_table.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>

namespace loopside::site {

namespace {

constexpr std::size_t textMost = 80;
constexpr std::array<std::string_view, 3> sizes = {"c4", "c6", "c14"};
constexpr std::array<std::string_view, 8> plainColumns = {"sample", "code",      "counted", "method",
                                                          "water",  "viscosity", "acid",    "report"};

using Fields = std::map<std::string, std::string>; ///< By column; empty ones are not there.

bool isColumn(const std::string& name)
{
    const auto isOfSize = [&](std::string_view size) {
        return name == std::string(size) + "_per_ml" || name == std::string(size) + "_per_100ml";
    };
    return std::find(plainColumns.begin(), plainColumns.end(), name) != plainColumns.end()
        || std::any_of(sizes.begin(), sizes.end(), isOfSize);
}

/// Reads one row; every fault is kept.
class Reader
{
public:
    explicit Reader(const Fields& fields) : fields_{fields} {}

    run::ResultEntered read()
    {
        run::ResultEntered result{.sample = text("sample"), .code = text("code"), .water = {}, .viscosity = {}};
        readCounts(result);
        result.method = text("method");
        result.report = text("report");
        result.water = quantity<units::Fraction>("water");
        result.viscosity = quantity<units::KinematicViscosity>("viscosity");
        result.acid = acid();
        const std::string counted = quantity<units::Volume>("counted");
        if (const auto volume = run::TypedVolume::parse(counted)) {
            result.counted = *volume;
        }
        checkWhole(result);
        return result;
    }

    [[nodiscard]] std::vector<RowFault> takeFaults() { return std::move(faults_); }

private:
    [[nodiscard]] std::string field(const std::string& column) const
    {
        const auto found = fields_.find(column);
        return found == fields_.end() ? std::string() : found->second;
    }

    void fault(const std::string& column, const std::string& what, std::vector<Message::Argument> values = {})
    {
        faults_.push_back({column, field(column), {"file.fault." + what, values}, {"file.do." + what, values}});
    }

    std::string text(const std::string& column)
    {
        const std::string value = field(column);
        const bool isOrdinary = value.size() <= textMost && std::none_of(value.begin(), value.end(), [](char sign) {
                                    return static_cast<unsigned char>(sign) < 0x20;
                                });
        if (!isOrdinary) {
            fault(column, "text", {{"most", std::to_string(textMost)}});
        }
        return value;
    }

    template<class Q>
    std::string quantity(const std::string& column)
    {
        const std::string value = field(column);
        if (!value.empty() && !units::Typed<Q>::parse(value)) {
            fault(column, "result-unit");
        }
        return value;
    }

    std::string acid()
    {
        const std::string value = field("acid");
        constexpr std::string_view unit = "mg KOH/g";
        const bool hasUnit = value.ends_with(unit);
        const auto number = hasUnit
            ? Decimal::parse(trimmed(std::string_view(value).substr(0, value.size() - unit.size())))
            : Result<Decimal>(fail(Errc::Malformed, "no unit"));
        if (!value.empty() && (!number || *number < Decimal(0, 0))) {
            fault("acid", "acid");
        }
        return value;
    }

    /// The count at one size per mL, if there is one.
    std::optional<Decimal> count(std::string_view size)
    {
        const std::string perMl = std::string(size) + "_per_ml";
        const std::string per100 = std::string(size) + "_per_100ml";
        const bool isPerMl = !field(perMl).empty();
        const std::string& column = isPerMl ? perMl : per100;
        if (field(column).empty()) {
            return std::nullopt;
        }
        if (isPerMl && !field(per100).empty()) {
            fault(per100, "twice");
            return std::nullopt;
        }
        const auto number = Decimal::parse(field(column));
        if (!number || *number < Decimal(0, 0)) {
            fault(column, "count");
            return std::nullopt;
        }
        return isPerMl ? *number : number->percent(1);
    }

    void readCounts(run::ResultEntered& result)
    {
        std::array<std::optional<Decimal>, 3> counts = {};
        for (std::size_t i = 0; i < sizes.size(); ++i) {
            counts[i] = count(sizes[i]);
        }
        const bool isWhole = counts[1].has_value() == counts[2].has_value() && (!counts[0] || counts[1] || !counts[2]);
        if (!isWhole) {
            fault("c6_per_ml", "count-gap");
            return;
        }
        for (const auto& one : counts) {
            if (one) {
                result.countsPerMl.push_back(*one);
            }
        }
    }

    void checkWhole(const run::ResultEntered& result)
    {
        const auto told = oil::CleanlinessCode::parse(result.code);
        if (!result.code.empty() && !told) {
            fault("code", "code");
        }
        if (result.countsPerMl.size() > 1) {
            std::vector<double> counts;
            for (const Decimal& one : result.countsPerMl) {
                counts.push_back(one.toDouble());
            }
            const auto code = oil::CleanlinessCode::fromCounts(counts, oil::CountBasis::PerMl);
            if (!code) {
                fault("c4_per_ml", "count-rises");
            } else if (told && !isAlike(*told, *code)) {
                fault("code", "code-differs", {{"code", code->toText()}});
            }
        }
        const bool isEmpty = result.code.empty() && result.countsPerMl.empty() && result.water.empty()
            && result.viscosity.empty() && result.acid.empty();
        if (isEmpty && faults_.empty()) {
            fault("code", "needed", {{"column", "code"}});
        }
    }

    /// Alike but for the mark of few particles, which counts per mL cannot tell.
    static bool isAlike(const oil::CleanlinessCode& a, const oil::CleanlinessCode& b)
    {
        for (std::size_t i = 0; i < a.scales().size(); ++i) {
            if (a.scales()[i].kind() != b.scales()[i].kind() || a.scales()[i].number() != b.scales()[i].number()) {
                return false;
            }
        }
        return true;
    }

    const Fields& fields_;
    std::vector<RowFault> faults_;
};

Fields fieldsOf(const ValueTable& table, const ValueRow& row)
{
    Fields fields;
    for (std::size_t i = 0; i < row.fields.size(); ++i) {
        if (!row.fields[i].empty()) {
            fields[table.columns[i]] = row.fields[i];
        }
    }
    return fields;
}

RowFault bottleFault(const std::string& sample, const std::string& what)
{
    return {"sample", sample, {"file.fault." + what, {}}, {"file.do." + what, {}}};
}

/// Where the result belongs; what stands against it goes to the faults.
void attach(ResultRow& row, const run::ResultEntered& result, const std::vector<KnownBottle>& bottles)
{
    std::vector<const KnownBottle*> named;
    for (const KnownBottle& bottle : bottles) {
        if (bottle.id == result.sample) {
            named.push_back(&bottle);
        }
    }
    if (result.sample.empty()) {
        row.faults.push_back({"sample", {}, {"file.fault.needed", {}}, {"file.do.needed", {{"column", "sample"}}}});
    } else if (named.size() != 1) {
        row.faults.push_back(bottleFault(result.sample, named.empty() ? "no-bottle" : "bottles"));
    }
    if (!row.faults.empty()) {
        return;
    }
    const auto& known = named.front()->result;
    row.tank = named.front()->tank;
    row.fate = !known ? RowFate::New : run::withResult(*known, result) == *known ? RowFate::Same : RowFate::Changed;
    if (row.fate != RowFate::Same) {
        row.say = run::Say{named.front()->run, result};
    }
}

/// Of two rows for one bottle neither is taken.
void refuseTwins(std::vector<ResultRow>& rows)
{
    std::map<std::string, std::vector<std::size_t>> places;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        places[rows[i].sample].push_back(i);
    }
    for (const auto& [sample, at] : places) {
        for (std::size_t i = 0; !sample.empty() && at.size() > 1 && i < at.size(); ++i) {
            ResultRow& row = rows[at[i]];
            const std::string other = std::to_string(rows[at[i == 0 ? 1 : 0]].line);
            row.faults.push_back(
                {"sample", sample, {"file.fault.same-name", {{"line", other}}}, {"file.do.same-name", {}}});
            row.fate = RowFate::Unreadable;
            row.say.reset();
        }
    }
}

ResultRow rowOf(const ValueTable& table, const ValueRow& from, const std::vector<KnownBottle>& bottles)
{
    ResultRead read = readResult(fieldsOf(table, from));
    ResultRow row{.line = from.line, .sample = read.result.sample, .tank = {}, .faults = std::move(read.faults)};
    attach(row, read.result, bottles);
    return row;
}

void takeBottles(const run::RunState& run, std::vector<KnownBottle>& all)
{
    const auto begin = static_cast<std::ptrdiff_t>(all.size());
    const auto named = [&](const std::string& id) {
        return std::find_if(all.begin() + begin, all.end(), [&](const KnownBottle& one) { return one.id == id; });
    };
    for (const run::Fact& fact : run.facts) {
        if (fact.struck) {
            continue;
        }
        if (const auto* drawn = std::get_if<run::SampleDrawn>(&fact.effective)) {
            const auto before = named(drawn->id);
            if (before != all.end()) {
                before->result.reset(); // the name is another bottle's from here on
            } else {
                all.push_back({run.id, run.setup.tank.name, drawn->id, {}, run.setup.tank.fluid});
            }
        } else if (const auto* result = std::get_if<run::ResultEntered>(&fact.effective)) {
            const auto bottle = named(result->sample);
            if (bottle != all.end()) {
                bottle->result = bottle->result ? run::withResult(*std::move(bottle->result), *result) : *result;
            }
        }
    }
}

} // namespace

int ResultsPreview::count(RowFate fate) const
{
    return static_cast<int>(
        std::count_if(rows.begin(), rows.end(), [&](const ResultRow& row) { return row.fate == fate; }));
}

std::vector<KnownBottle> bottlesOf(const run::State& state)
{
    std::vector<KnownBottle> all;
    for (const auto& [id, run] : state.runs) {
        if (!run.setup.isPractice) {
            takeBottles(run, all);
        }
    }
    return all;
}

ResultRead readResult(const std::map<std::string, std::string>& fields)
{
    Reader reader(fields);
    run::ResultEntered result = reader.read();
    return {std::move(result), reader.takeFaults()};
}

Result<ResultsPreview> resultsIn(const std::string& file, std::string text, const std::vector<KnownBottle>& bottles)
{
    const auto table = readTable(file, std::move(text));
    if (!table) {
        return fail(table.error());
    }
    if (std::find(table->columns.begin(), table->columns.end(), "sample") == table->columns.end()) {
        return fail(Errc::Malformed, file + " has no column \"sample\"",
                    {"file.no-column", {{"file", file}, {"column", "sample"}}});
    }
    ResultsPreview preview;
    std::copy_if(table->columns.begin(), table->columns.end(), std::back_inserter(preview.passedOver),
                 [](const std::string& column) { return !isColumn(column); });
    for (const ValueRow& row : table->rows) {
        preview.rows.push_back(rowOf(*table, row, bottles));
    }
    refuseTwins(preview.rows);
    for (const ValueFault& fault : table->faults) {
        preview.rows.push_back(
            {.line = fault.line, .sample = {}, .tank = {}, .faults = {{{}, {}, fault.what, fault.todo}}});
    }
    std::stable_sort(preview.rows.begin(), preview.rows.end(),
                     [](const ResultRow& a, const ResultRow& b) { return a.line < b.line; });
    return preview;
}

namespace {

std::string countsText(const std::vector<Decimal>& counts)
{
    std::string text;
    for (const Decimal& count : counts) {
        text += (text.empty() ? "" : " / ") + count.toText();
    }
    return text;
}

/// What is told of a bottle, by the place of its field (words/field_told.h).
std::vector<std::pair<std::string, std::string>> fieldsOf(const run::ResultEntered& result)
{
    return {{"result.code", result.code},
            {"result.counts", countsText(result.countsPerMl)},
            {"result.counted", result.counted ? result.counted->toText() : std::string()},
            {"result.method", result.method},
            {"result.water", result.water},
            {"result.viscosity", result.viscosity},
            {"result.acid", result.acid},
            {"result.report", result.report}};
}

std::vector<Change> changesOf(const KnownBottle& bottle, const run::ResultEntered& told)
{
    const run::ResultEntered known = bottle.result.value_or(run::ResultEntered{});
    const auto was = fieldsOf(known);
    const auto becomes = fieldsOf(bottle.result ? run::withResult(known, told) : told);
    std::vector<Change> changes;
    for (std::size_t i = 0; i < was.size(); ++i) {
        if (was[i].second != becomes[i].second) {
            changes.push_back({was[i].first, was[i].second, becomes[i].second});
        }
    }
    return changes;
}

PreviewRow asPreview(ResultRow row, const std::vector<KnownBottle>& bottles)
{
    PreviewRow shown{.line = row.line,
                     .name = row.sample + (row.tank.empty() ? "" : " (" + row.tank + ")"),
                     .fate = row.fate,
                     .faults = std::move(row.faults)};
    if (row.say) {
        const auto& told = std::get<run::ResultEntered>(row.say->what);
        const auto bottle = std::find_if(bottles.begin(), bottles.end(), [&](const KnownBottle& one) {
            return one.run == row.say->run && one.id == told.sample;
        });
        shown.changes = changesOf(*bottle, told);
        shown.odd = run::oddIn(told, bottle->fluid);
        shown.say = std::move(row.say);
    }
    return shown;
}

} // namespace

Result<Preview> resultsPreviewOf(const std::string& file, std::string text, const run::State& state)
{
    const std::vector<KnownBottle> bottles = bottlesOf(state);
    auto results = resultsIn(file, std::move(text), bottles);
    if (!results) {
        return fail(results.error());
    }
    Preview preview{.recordKind = {}, .rows = {}, .passedOver = std::move(results->passedOver)};
    for (ResultRow& row : results->rows) {
        preview.rows.push_back(asPreview(std::move(row), bottles));
    }
    return preview;
}

} // namespace loopside::site
