// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/result_view.h"

#include "app/as_shown.h"
#include "app/draft_places.h"
#include "app/wording.h"
#include "run/result_odd.h"
#include "site/results_file.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 2> knownMethods = {"counter", "microscope"}; ///< As entries have them.
constexpr int longestCode = 12;
constexpr int longestNumber = 9;
const QString perMl = QStringLiteral("/mL");

/// A field and the columns of a laboratory's file that it stands for.
struct Place
{
    const char* name; ///< `app.result.<name>`.
    const char* column;
    const char* otherColumn; ///< For its second unit, where that is another column.
};

constexpr std::array<Place, 8> places = {{{"code", "code", nullptr},
                                          {"c4", "c4_per_ml", "c4_per_100ml"},
                                          {"c6", "c6_per_ml", "c6_per_100ml"},
                                          {"c14", "c14_per_ml", "c14_per_100ml"},
                                          {"water", "water", nullptr},
                                          {"viscosity", "viscosity", nullptr},
                                          {"acid", "acid", nullptr},
                                          {"counted", "counted", nullptr}}};
constexpr std::size_t firstCount = 1;
constexpr std::size_t counts = 3;

QStringList unitsOf(std::size_t place)
{
    switch (place) {
    case 1:
    case 2:
    case 3:
        return {perMl, QStringLiteral("/100 mL")};
    case 4:
        return {QStringLiteral("ppm"), QStringLiteral("%")};
    case 5:
        return {QStringLiteral("cSt")};
    case 6:
        return {QStringLiteral("mg KOH/g")};
    case 7:
        return {QStringLiteral("mL"), QStringLiteral("L")};
    default:
        return {};
    }
}

bool isCount(std::size_t place)
{
    return place >= firstCount && place < firstCount + counts;
}

/// What was told before, by column.
std::map<std::string, std::string> columnsOf(const run::ResultEntered& result)
{
    std::map<std::string, std::string> columns = {
        {"sample", result.sample}, {"code", result.code},
        {"water", result.water},   {"viscosity", result.viscosity},
        {"acid", result.acid},     {"method", result.method},
        {"report", result.report}, {"counted", result.counted ? result.counted->toText() : ""}};
    const std::size_t first = result.countsPerMl.size() == 2 ? 1 : 0; // of two the microscope's: run/samples.h
    for (std::size_t i = 0; i < result.countsPerMl.size() && first + i < counts; ++i) {
        columns[places[firstCount + first + i].column] = result.countsPerMl[i].toText();
    }
    return columns;
}

constexpr std::string_view needed = "file.fault.needed";

/// What cannot be kept as a result at all; anything else is odd, and kept as typed.
bool isImpossible(const site::RowFault& fault)
{
    constexpr std::array<std::string_view, 4> ids = {"file.fault.count", "file.fault.count-gap", needed,
                                                     "file.fault.text"};
    return std::ranges::find(ids, fault.what.id) != ids.end()
        || (fault.what.id == "file.fault.result-unit" && fault.column == "counted");
}

} // namespace

ResultView::ResultView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      fields_{{FieldsView::Field{tablet.label("app.result.code")}}},
      methods_{{"name", "detail", "isChosen"}},
      report_{tablet, kitDrafts},
      method_{tablet, kitDrafts}
{
    connect(&fields_, &FieldsView::changed, this, &ResultView::told);
    connect(&report_, &OwnWords::changed, this, &ResultView::told);
    connect(&method_, &OwnWords::changed, this, &ResultView::told);
    connect(this, &ResultView::told, this, &ResultView::refresh);
}

void ResultView::about(const run::SampleSeen& sample)
{
    sample_ = sample.drawn->id;
    before_ = sample.result.value_or(run::ResultEntered{.sample = sample_, .code = {}, .water = {}, .viscosity = {}});
    const Fields told = columnsOf(before_);
    std::vector<FieldsView::Field> fields;
    for (std::size_t i = 0; i < places.size(); ++i) {
        FieldsView::Field field{.name = tablet_.say({std::string("app.result.") + places[i].name, {}}),
                                .units = unitsOf(i),
                                .longest = i == 0 ? longestCode : longestNumber};
        field.point = i == 0 ? QStringLiteral("/") : QStringLiteral(".");
        const auto known = told.find(places[i].column);
        if (known != told.end() && !known->second.empty()) {
            field.ghost = tablet_.say({"app.result.told", {{"value", known->second}}});
        }
        fields.push_back(std::move(field));
    }
    const std::string subject = toText(tablet_.shown()->id) + ".result." + sample_;
    fields_.setFields(std::move(fields));
    wasTyped_ = fields_.keepIn(tablet_.drafts(), kitDrafts, toQt(subject));
    report_.about(subject + ".report");
    method_.about(subject + ".method");
    wasTyped_ = wasTyped_ || !report_.text().isEmpty();
    refresh();
}

void ResultView::refresh()
{
    const std::string method = method_.text().isEmpty() ? before_.method : method_.text().toStdString();
    QList<RowModel::Row> rows;
    for (const char* known : knownMethods) {
        rows.append({tablet_.say({std::string("app.result.method.") + known, {}}), QString(), method == known});
    }
    methods_.setRows(std::move(rows));
    Q_EMIT changed();
}

void ResultView::chooseMethod(int row)
{
    method_.setText(QLatin1String(knownMethods.at(static_cast<std::size_t>(row))));
}

bool ResultView::isAnything() const
{
    return !fields_.areEmpty() || !report_.text().trimmed().isEmpty() || !method_.text().isEmpty();
}

ResultView::Fields ResultView::typedColumns() const
{
    Fields columns = {{"sample", sample_}};
    for (std::size_t i = 0; i < places.size(); ++i) {
        const int field = static_cast<int>(i);
        if (fields_.count() <= field || fields_.isEmpty(field)) {
            continue;
        }
        const std::string typed = fields_.text(field).toStdString();
        const std::string unit = fields_.unit(field).toStdString();
        if (isCount(i)) {
            columns[fields_.unit(field) == perMl ? places[i].column : places[i].otherColumn] = typed;
        } else {
            columns[places[i].column] = unit.empty() ? typed : typed + " " + unit;
        }
    }
    if (!report_.text().trimmed().isEmpty()) {
        columns["report"] = report_.text().trimmed().toStdString();
    }
    if (!method_.text().isEmpty()) {
        columns["method"] = method_.text().toStdString();
    }
    return columns;
}

ResultView::Fields ResultView::asColumns() const
{
    Fields columns = columnsOf(before_);
    for (auto& [column, text] : typedColumns()) {
        for (const Place& place : places) {
            if (place.otherColumn != nullptr && (column == place.column || column == place.otherColumn)) {
                columns.erase(place.column);
            }
        }
        columns[column] = text;
    }
    std::erase_if(columns, [](const auto& column) { return column.second.empty(); });
    return columns;
}

/// "Code 18/16: is no ISO 4406 code. Write three numbers such as 18/16/13, the largest first."
QString ResultView::textOf(const site::RowFault& fault) const
{
    QString name = toQt(fault.column);
    for (const Place& place : places) {
        if (fault.column == place.column || (place.otherColumn != nullptr && fault.column == place.otherColumn)) {
            name = tablet_.say({std::string("app.result.") + place.name, {}});
        }
    }
    return asShown(name + (fault.value.empty() ? QString() : QLatin1Char(' ') + toQt(fault.value))
                   + QStringLiteral(": ") + tablet_.say(fault.what) + QStringLiteral(". ") + tablet_.say(fault.todo));
}

QString ResultView::problem() const
{
    if (!isAnything()) {
        return tablet_.label("app.result.type");
    }
    const auto read = site::readResult(typedColumns());
    const bool wasTold = before_ != run::ResultEntered{.sample = sample_, .code = {}, .water = {}, .viscosity = {}};
    const auto impossible = std::ranges::find_if(read.faults, [&](const site::RowFault& fault) {
        return isImpossible(fault) && !(wasTold && fault.what.id == needed);
    });
    if (impossible == read.faults.end()) {
        return {};
    }
    return impossible->what.id == needed ? tablet_.label("app.result.type") : textOf(*impossible);
}

QStringList ResultView::doubts() const
{
    const auto read = site::readResult(asColumns());
    QStringList odd;
    for (const site::RowFault& fault : read.faults) {
        if (!isImpossible(fault)) {
            odd.append(textOf(fault));
        }
    }
    for (const Message& message : run::oddIn(read.result, tablet_.shown()->setup.tank.fluid)) {
        odd.append(asShown(tablet_.words().say(message)));
    }
    return odd;
}

bool ResultView::log()
{
    if (!problem().isEmpty() || !tablet_.say(run::Said(site::readResult(typedColumns()).result))) {
        return false;
    }
    fields_.clear();
    report_.clear();
    method_.clear();
    return true;
}

} // namespace loopside::app
