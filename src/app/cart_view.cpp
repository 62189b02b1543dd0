// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/cart_view.h"

#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/place_state.h"
#include "app/setup_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "run/job.h"

#include <algorithm>
#include <functional>
#include <map>

namespace loopside::app {

namespace {

constexpr int longestType = 24;
constexpr int longestFluid = 32;
constexpr std::size_t stagesOfNew = 2; ///< What most portable carts have, until somebody says otherwise.
constexpr std::size_t mostStages = 4;

/// Of which nothing is known: no flow can be 0, so one that is not typed is refused, as is a dial without a unit.
run::CartPut nothingKnown()
{
    run::CartPut put{
        {.name = {}, .flow = {Decimal(0, 0), **units::unitNamed<units::Flow>("L/min")}, .lastFluid = {}, .gauges = {}},
        std::vector<run::StageRecord>(stagesOfNew)};
    put.cart.gauges.resize(stagesOfNew + 1);
    return put;
}

/// The full scale of a dial, whose unit is the one it is typed in.
bool readSpan(run::GaugeRecord& gauge, const std::string& text)
{
    const auto typed = run::TypedPressure::parse(text);
    if (typed) {
        if (gauge.unit != &typed->unit()) {
            gauge.graduation.reset(); // it counted in the unit before
        }
        gauge.unit = &typed->unit();
        gauge.span = typed->number();
    }
    return typed.has_value();
}

/// Where a field stands depends on how many stages there are: its drafts stand under the name of its group.
template<class Fields>
void setKeys(Fields& fields, const std::string& group)
{
    for (std::size_t i = 0; i < fields.size(); ++i) {
        fields[i].field.key = toQt(group + "-" + std::to_string(i));
    }
}

QString spanText(const run::GaugeRecord& gauge)
{
    return gauge.span && gauge.unit != nullptr ? toQt(gauge.span->toText() + " " + std::string(gauge.unit->symbol))
                                               : QString();
}

/// In the dial's own unit, like its span.
QString graduationText(const run::GaugeRecord& gauge)
{
    return gauge.graduation && gauge.unit != nullptr
        ? toQt(gauge.graduation->toText() + " " + std::string(gauge.unit->symbol))
        : QString();
}

} // namespace

CartView::CartView(Tablet& tablet, QObject* parent)
    : RecordView{tablet, "cart", cartDrafts, parent}, put_{nothingKnown()}
{
    refresh();
}

QString CartView::stateOf(const run::RecordPut& record) const
{
    return cartStateOf(tablet(), site::nameOf(record)).text;
}

QList<RowModel::Row> CartView::factsOf(const run::RecordPut& record) const
{
    const auto& [cart, stages] = std::get<run::CartPut>(record);
    QList<RowModel::Row> rows = cartFacts(tablet(), cart, nullptr);
    rows[1][1] = oilAsShown(tablet(), lastFluidOf(tablet(), cart));
    const auto add = [&](const QString& name, const QString& value) {
        rows.append({name, value.isEmpty() ? tablet().label("app.setup.not-known") : value});
    };
    add(tablet().label("record.relief"), cart.relief ? asWanted(*cart.relief, tablet().wants()) : QString());
    QStringList dials;
    for (const run::GaugeRecord& gauge : cart.gauges) {
        dials.append(spanText(gauge).isEmpty() ? QStringLiteral("?") : spanText(gauge));
    }
    dials.removeDuplicates();
    add(tablet().label("app.record-page.gauges"), dials.join(QStringLiteral(", ")));
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const run::StageRecord& stage = stages[i];
        add(stageTitle(tablet(), stage, static_cast<int>(i) + 1), toQt(stage.type));
        add(tablet().label("app.record-page.limit"),
            stage.changeLimit ? asWanted(*stage.changeLimit, tablet().wants()) : QString());
    }
    return rows;
}

std::vector<HistoryLine> CartView::workOf(const std::string& name) const
{
    return workOfCart(tablet(), name);
}

/// The oils that it pumped, and what proves that the last flush was enough.
QList<RowModel::Row> CartView::pastOf(const std::string& name) const
{
    constexpr qsizetype mostShown = 4;
    std::multimap<std::int64_t, QString, std::greater<>> seen; // the latest first
    for (const auto& [id, run] : tablet().state().runs) {
        if (run.setup.cart.name == name && !run.setup.isPractice) {
            const Stamp& opened = run.opened.entered;
            seen.emplace(opened.wallMs,
                         oilAsShown(tablet(), run::fluidText(run.setup.tank.fluid)) + QStringLiteral(" (")
                             + dateText(opened) + QLatin1Char(')'));
        }
    }
    QStringList fluids;
    for (const auto& [when, fluid] : seen) {
        if (!fluids.contains(fluid) && fluids.size() < mostShown) {
            fluids.append(fluid);
        }
    }
    return {{tablet().label("app.past.fluids"),
             fluids.isEmpty() ? tablet().label("app.past.none") : fluids.join(QStringLiteral(", "))},
            {tablet().label("app.past.flush"), flushText(name)}};
}

QString CartView::flushText(const std::string& name) const
{
    const auto* cart = tablet().state().cartOf(name);
    const auto* job = cart == nullptr ? nullptr : tablet().state().jobOf(cart->lastFlush);
    if (job == nullptr || job->flush() == nullptr) {
        return tablet().label("app.past.no-flush");
    }
    const auto standing = run::jobStanding(*job, tablet().jobTime(*job));
    const auto& residual = standing.flush->residual;
    return tablet().say({"app.past.flushed",
                         {{"day", dateText(job->opened.entered).toStdString()},
                          {"fluid", job->flush()->toFluid},
                          {"batches", std::to_string(standing.flush->batches)},
                          {"rest", residual ? partText(*residual).toStdString() : std::string("?")}}});
}

/// The unit of the dials first: limits are typed in it.
QStringList CartView::pressureUnits() const
{
    QStringList units = {QStringLiteral("kPa"), QStringLiteral("bar"), QStringLiteral("psi")};
    const auto* unit = put_.cart.gauges.front().unit;
    const QString own = unit == nullptr ? QString() : toQt(unit->symbol);
    if (units.removeOne(own)) {
        units.prepend(own);
    }
    return units;
}

std::vector<CartView::Group> CartView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::CartPut>(*record) : nothingKnown();
    takeStages();
    std::vector<Group> groups = {pumpGroup(isKnown)};
    for (std::size_t i = 0; i < put_.stages.size(); ++i) {
        groups.push_back(stageGroup(i, isKnown));
    }
    groups.push_back(gaugeGroup(isKnown));
    groups.push_back(hoseGroup(isKnown));
    groups.push_back(oilGroup(isKnown));
    return groups;
}

/// As many as somebody chose; of those that are new nothing is known, nor of their gauges.
void CartView::takeStages()
{
    if (const auto chosen = pickedIn(tablet().label("app.record-page.pump"))) {
        put_.stages.resize(static_cast<std::size_t>(*chosen) + 1);
        put_.cart.gauges.resize(put_.stages.size() + 1);
    }
    cleanAt_.clear();
    for (const run::StageRecord& stage : put_.stages) {
        cleanAt_.push_back(site::CleanAtParts::of(stage.cleanAt));
    }
}

run::RecordPut CartView::record() const
{
    run::CartPut put = put_;
    for (std::size_t i = 0; i < put.stages.size(); ++i) {
        put.stages[i].cleanAt = cleanAt_[i].whole();
    }
    return put;
}

CartView::Group CartView::pumpGroup(bool isKnown)
{
    run::CartRecord& cart = put_.cart;
    const QStringList pressures = pressureUnits();
    const QStringList flows = {QStringLiteral("L/min"), QStringLiteral("gpm")};
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.pump");
    group.fields = {
        editable(label("record.flow"), cart.flow, flows, isKnown),
        editable(label("record.lowest_flow"), cart.lowestFlow, flows, isKnown),
        editable(label("record.relief"), cart.relief, pressures, isKnown),
        editable(label("record.static_head"), cart.staticHead, pressures, isKnown),
        editable(label("record.motor.power"), cart.motor.power, {QStringLiteral("kW"), QStringLiteral("hp")}, isKnown),
        editable(label("record.motor.current"), cart.motor.current, {QStringLiteral("A")}, isKnown),
        editable(label("record.motor.voltage"), cart.motor.voltage, {QStringLiteral("V")}, isKnown),
        editable(label("record.circuit"), cart.circuit, {QStringLiteral("A")}, isKnown)};
    group.fields.front().isNeeded = true;
    group.choicesTitle = tablet().say({"app.record-page.stages", {{"stages", std::to_string(put_.stages.size())}}});
    for (std::size_t stages = 1; stages <= mostStages; ++stages) {
        group.choices.append(choice(QString::number(stages)));
    }
    group.isShape = true;
    return group;
}

CartView::Group CartView::stageGroup(std::size_t stage, bool isKnown)
{
    run::StageRecord& of = put_.stages[stage];
    const QStringList pressures = pressureUnits();
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = tablet().say({"app.stage", {{"stage", std::to_string(stage + 1)}}});
    const QString front = group.name + QLatin1Char(' ');
    group.fields = {editable(front + label("record.change_limit"), of.changeLimit, pressures, isKnown),
                    editable(front + label("record.bypass"), of.bypass, pressures, isKnown)};
    for (Editable& field : cleanFields(of, cleanAt_[stage], pressures, isKnown)) {
        group.fields.push_back(std::move(field));
    }
    group.fields.push_back(editable(front + label("record.type"), of.type, {}, isKnown,
                                    {.name = {}, .longest = longestType, .takesLetters = true}));
    group.fields.push_back(editable(front + label("record.elements"), of.elements, {}, isKnown));
    setKeys(group.fields, "stage" + std::to_string(stage + 1));
    group.choicesTitle = label("app.record-page.elements");
    group.isChoiceNeeded = true;
    for (const run::StageRecord& type : knownTypes()) {
        group.choices.append(choice(toQt(type.type), stageTitle(tablet(), type, static_cast<int>(stage) + 1)));
    }
    group.pick = [this, stage, isKnown](int row) {
        run::StageRecord type = knownTypes()[static_cast<std::size_t>(row)];
        type.elements = isKnown ? put_.stages[stage].elements : type.elements; // the housing stays as it is
        put_.stages[stage] = type;
        cleanAt_[stage] = site::CleanAtParts::of(type.cleanAt);
    };
    return group;
}

CartView::Group CartView::gaugeGroup(bool isKnown)
{
    const QStringList pressures = pressureUnits();
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.gauges");
    for (std::size_t i = 0; i < put_.cart.gauges.size(); ++i) {
        run::GaugeRecord& gauge = put_.cart.gauges[i];
        const QString front = tablet().say({"record.gauge", {{"gauge", std::to_string(i + 1)}}}) + QLatin1Char(' ');
        FieldsView::Field span;
        span.name = front + label("record.gauge.span");
        span.units = pressures;
        span.ghost = isKnown ? spanText(gauge) : QString();
        group.fields.push_back({span, [&gauge](const std::string& text) { return readSpan(gauge, text); },
                                [&gauge] { return site::takeBack(gauge.span); }, true});
        Editable graduation = editable(front + label("record.gauge.graduation"), gauge.graduation, {}, isKnown);
        graduation.field.ghost = isKnown ? graduationText(gauge) : QString();
        group.fields.push_back(std::move(graduation));
        group.fields.push_back(editable(front + label("record.gauge.grade"), gauge.grade, {}, isKnown,
                                        {.name = {}, .takesLetters = true}));
    }
    setKeys(group.fields, "gauges");
    return group;
}

CartView::Group CartView::hoseGroup(bool isKnown)
{
    run::CartRecord& cart = put_.cart;
    const QStringList bores = {QStringLiteral("mm"), QStringLiteral("in")};
    const QStringList lengths = {QStringLiteral("m"), QStringLiteral("ft")};
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.hoses");
    group.fields = {editable(label("record.suction_hose.bore"), cart.suctionHose.bore, bores, isKnown),
                    editable(label("record.suction_hose.length"), cart.suctionHose.length, lengths, isKnown),
                    editable(label("record.suction_hose.lift"), cart.suctionHose.lift, lengths, isKnown),
                    editable(label("record.suction_limit"), cart.suctionLimit, pressureUnits(), isKnown),
                    editable(label("record.suction_allowance"), cart.suctionAllowance, {}, isKnown),
                    editable(label("record.return_hose.bore"), cart.returnHose.bore, bores, isKnown),
                    editable(label("record.return_hose.length"), cart.returnHose.length, lengths, isKnown),
                    editable(label("record.return_hose.lift"), cart.returnHose.lift, lengths, isKnown)};
    setKeys(group.fields, "hoses");
    return group;
}

/// What is in it before its first run here: from then on the journal knows.
CartView::Group CartView::oilGroup(bool isKnown)
{
    run::CartRecord& cart = put_.cart;
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("app.record-page.oil-in-it");
    group.fields = {
        editable(label("record.hold_up"), cart.holdUp, {QStringLiteral("L"), QStringLiteral("gal")}, isKnown),
        editable(label("record.viscosity_ceiling"), cart.viscosityCeiling, {QStringLiteral("cSt")}, isKnown),
        editable(label("record.last_fluid"), cart.lastFluid, {}, isKnown,
                 {.name = {}, .longest = longestFluid, .takesLetters = true})};
    setKeys(group.fields, "oil");
    group.choicesTitle = label("app.record-page.last-oil");
    for (const run::FluidPut& fluid : site::knownFluids(tablet().site())) {
        const std::string described = run::fluidText(fluid.fluid);
        group.choices.append(choice(oilAsShown(tablet(), fluid.name),
                                    described == fluid.name ? QString() : oilAsShown(tablet(), described)));
    }
    group.pick = [this](int row) {
        put_.cart.lastFluid = run::fluidText(site::knownFluids(tablet().site())[static_cast<std::size_t>(row)].fluid);
    };
    return group;
}

/// The element types of the catalogue, then those that stand in carts, each once.
std::vector<run::StageRecord> CartView::knownTypes() const
{
    std::vector<run::StageRecord> types = tablet().site().elementTypes;
    for (const SiteCart& cart : tablet().site().carts) {
        for (const run::StageRecord& stage : cart.stages) {
            const bool isThere = stage.type.empty()
                || std::ranges::any_of(types, [&](const auto& type) { return type.type == stage.type; });
            if (!isThere) {
                types.push_back(stage);
                types.back().loaded.reset();
                types.back().spareSets.reset();
            }
        }
    }
    return types;
}

} // namespace loopside::app
