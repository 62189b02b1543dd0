// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/transfer_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/draft_places.h"
#include "app/job_words.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "run/job.h"
#include "words/oil_told.h"
#include "words/record_told.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <ranges>

namespace loopside::app {

namespace {

constexpr std::array<run::Mode, 2> valveModes = {run::Mode::Bypassing, run::Mode::Filtering};
constexpr int plateSigns = 3;
constexpr int dayLength = 10; ///< Of "2026-05-26" in a day with its time.
/// Oil may be as warm as it was read this long ago. Ours, no source.
constexpr std::chrono::hours oilStaysAsWarm{4};

enum Field
{
    Capacity,
    Holds,
    ToMove
};

std::vector<FieldsView::Field> transferFields(const Tablet& tablet)
{
    const QStringList volumes = {QStringLiteral("L"), QStringLiteral("gal")};
    return {{tablet.label("app.waste.capacity"), volumes},
            {tablet.label("app.waste.holds"), volumes},
            {tablet.label("app.waste.to-move"), volumes}};
}

std::vector<FieldsView::Field> movedField(const Tablet& tablet)
{
    return {{tablet.label("app.waste.moved"), {QStringLiteral("L"), QStringLiteral("gal")}}};
}

/// Never more than may be.
std::string roundedDown(units::Volume volume, const units::NamedUnit<units::Volume>& unit)
{
    return fixed(std::floor(volume.in(unit.unit) + 1e-9), 0) + " " + std::string(unit.symbol);
}

} // namespace

TransferView::TransferView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      tanks_{{"name", "detail", "isChosen"}},
      carts_{{"name", "detail", "isChosen"}},
      fluids_{{"name", "detail", "isChosen"}},
      valves_{{"name", "detail", "isChosen"}},
      points_{tablet, run::Checklist::Transfer, [this](const auto& answered) { return look(answered); }},
      fields_{transferFields(tablet)},
      plate_{{{tablet.label("app.waste.plate"), {}, plateSigns, QStringLiteral("-"), true}}},
      moved_{movedField(tablet)},
      outcome_{{"name", "value"}},
      label_{{"text"}},
      labelKeys_{{"text", "say"}},
      kept_{tablet, transferAnswers}
{
    points_.offer([this](auto check) { return kept_.before(source().toStdString(), check); });
    // The plate is not kept: it is read at the tank, each time anew.
    const QString typedBefore = tablet_.label("app.field.typed-before");
    fields_.keepIn(tablet_.drafts(), transferDrafts, QStringLiteral("plan"), typedBefore);
    moved_.keepIn(tablet_.drafts(), transferDrafts, QStringLiteral("moved"), typedBefore);
    for (FieldsView* fields : {&fields_, &plate_, &moved_}) {
        connect(fields, &FieldsView::changed, this, &TransferView::refresh);
    }
    const auto takeWishes = [this] {
        preferUnits(fields_, tablet_.wants());
        preferUnits(moved_, tablet_.wants());
    };
    connect(&tablet_, &Tablet::personChanged, this, takeWishes);
    takeWishes();
    connect(&tablet_, &Tablet::siteChanged, this, [this](const Site& before) {
        tank_ = keptRow(tankNames(before), tank_, tankNames(tablet_.site()));
        cart_ = keptRow(cartNames(before), cart_, cartNames(tablet_.site()));
        fluid_ = keptRow(fluidNames(before), fluid_, fluidNames(tablet_.site()));
    });
    connect(&tablet_, &Tablet::changed, this, &TransferView::refresh);
    connect(&tablet_, &Tablet::secondPassed, this, &TransferView::ticked);
    refresh();
}

void TransferView::open()
{
    const run::Job* open = openJob<run::TransferOpened>(tablet_.state());
    if (open != nullptr && phase_ != Phase::Measure) {
        job_ = open->id;
        phase_ = Phase::Running;
    } else if (phase_ == Phase::Stopped) {
        planAnother();
    }
    refresh();
}

void TransferView::planAnother()
{
    phase_ = Phase::Plan;
    job_ = {};
    tank_ = cart_ = fluid_ = valve_ = -1;
    lookAnew();
    for (FieldsView* fields : {&fields_, &plate_, &moved_}) {
        fields->clear();
    }
    refresh();
}

const run::TankRecord* TransferView::tank() const
{
    return tank_ < 0 ? nullptr : &tablet_.site().tanks[static_cast<std::size_t>(tank_)];
}

const run::CartRecord* TransferView::chosenCart() const
{
    return cart_ < 0 ? nullptr : &tablet_.site().carts[static_cast<std::size_t>(cart_)].cart;
}

std::string TransferView::cart() const
{
    return job() != nullptr ? job()->cart() : chosenCart() != nullptr ? chosenCart()->name : std::string();
}

std::optional<filtration::Transfer> TransferView::planned() const
{
    const auto capacity = fields_.typed<units::Volume>(Capacity);
    const auto holds = fields_.typed<units::Volume>(Holds);
    const auto oil = fields_.typed<units::Volume>(ToMove);
    if (!capacity || !holds || !oil || chosenCart() == nullptr) {
        return std::nullopt;
    }
    return filtration::Transfer{oil->value(), capacity->value(), holds->value(), chosenCart()->flow.value()};
}

QString TransferView::missingOfPlan() const
{
    if (tank_ < 0 || cart_ < 0) {
        return tablet_.label(tank_ < 0 ? "app.waste.choose-tank" : "app.setup.choose-cart");
    }
    const auto transfer = planned();
    if (!transfer) {
        return tablet_.label("app.waste.type-volumes");
    }
    const auto plan = filtration::planTransfer(*transfer);
    return plan ? QString() : tablet_.say(plan.error().say);
}

bool TransferView::plateFits() const
{
    const auto known = tank() == nullptr ? tablet_.site().plates.end() : tablet_.site().plates.find(tank()->name);
    const QString typed = plate_.text(0);
    return known != tablet_.site().plates.end() && typed.size() == plateSigns
        && toQt(known->second).endsWith(typed, Qt::CaseInsensitive);
}

bool TransferView::fluidFits() const
{
    return fluid_ >= 0 && tank() != nullptr
        && fluidsOf(tablet_.site())[static_cast<std::size_t>(fluid_)].text == run::fluidText(tank()->fluid);
}

bool TransferView::isOnlyTankWithItsFluid() const
{
    const auto& tanks = tablet_.site().tanks;
    return std::count_if(
               tanks.begin(), tanks.end(),
               [&](const auto& other) { return run::fluidText(other.fluid) == run::fluidText(tank()->fluid); })
        == 1;
}

bool TransferView::isSourceConfirmed() const
{
    return plateFits() || (fluidFits() && isOnlyTankWithItsFluid());
}

bool TransferView::isWrongTank() const
{
    return phase_ == Phase::Confirm
        && ((plate_.text(0).size() == plateSigns && !plateFits()) || (fluid_ >= 0 && !fluidFits()));
}

QString TransferView::warning() const
{
    if (isWrongTank()) {
        return tablet_.say({"app.waste.wrong-tank", {{"tank", tank()->name}}});
    }
    return phase_ == Phase::Confirm && valve_ == 1 ? tablet_.label("app.waste.elements-spent") : QString();
}

QString TransferView::missingOfConfirm() const
{
    if (isWrongTank()) {
        return tablet_.label("app.waste.do-not-pump");
    }
    if (!isSourceConfirmed()) {
        return tablet_.label(fluidFits() ? "app.waste.other-tank-too" : "app.waste.confirm-source");
    }
    return valve_ < 0           ? tablet_.label("app.waste.say-valve")
        : !points_.isComplete() ? tablet_.label("app.check.answer-each")
                                : QString();
}

void TransferView::refresh()
{
    QList<RowModel::Row> rows;
    for (const run::TankRecord& tank : tablet_.site().tanks) {
        rows.append({toQt(tank.name), oilAsShown(tablet_, run::fluidText(tank.fluid)), rows.size() == tank_});
    }
    tanks_.setRows(std::exchange(rows, {}));
    carts_.setRows(cartRows(tablet_, cart_));
    for (const SiteFluid& fluid : fluidsOf(tablet_.site())) {
        rows.append({oilAsShown(tablet_, fluid.text), QString(), rows.size() == fluid_});
    }
    fluids_.setRows(std::exchange(rows, {}));
    for (const char* valve : {"app.waste.at-bypass", "app.waste.at-filter"}) {
        rows.append({tablet_.label(valve), QString(), rows.size() == valve_});
    }
    valves_.setRows(std::exchange(rows, {}));
    showPoints();
    problem_ = phase_ == Phase::Plan                                  ? missingOfPlan()
        : phase_ == Phase::Confirm                                    ? missingOfConfirm()
        : phase_ == Phase::Measure && !moved_.typed<units::Volume>(0) ? tablet_.label("app.waste.type-moved")
                                                                      : QString();
    showOutcome();
    showLabel();
    Q_EMIT changed();
    Q_EMIT ticked();
}

bool TransferView::look(const run::CheckAnswered& answered)
{
    std::erase_if(looked_, [&](const run::CheckAnswered& known) { return known.check == answered.check; });
    looked_.push_back(answered);
    kept_.keep(source().toStdString(), answered);
    refresh();
    return true;
}

void TransferView::lookAnew()
{
    looked_.clear();
    showPoints();
    points_.begin();
}

void TransferView::showPoints()
{
    ChecklistView::Known known;
    for (const run::CheckPoint& point : run::pointsOf(run::Checklist::Transfer)) {
        const auto found = std::ranges::find(looked_, point.id, &run::CheckAnswered::check);
        known.push_back(found == looked_.end() ? std::nullopt
                                               : std::optional(run::PointAnswered{*run::answerNamed(found->say),
                                                                                  found->why, found->wasAsked}));
    }
    points_.about(source().toStdString());
    points_.show(std::move(known), circumstances());
}

void TransferView::showOutcome()
{
    if (const run::Job* known = job(); known != nullptr) {
        showRecord(*known);
        return;
    }
    QList<RowModel::Row> rows;
    const auto transfer = planned();
    const auto plan = transfer ? std::optional(filtration::planTransfer(*transfer)) : std::nullopt;
    if (plan && *plan) {
        const auto& typed = fields_.typed<units::Volume>(Capacity)->unit();
        const auto& unit = tablet_.wants().volume != nullptr ? *tablet_.wants().volume : typed;
        const auto volume = [&](units::Volume is) { return asShown(roundedDown(is, unit)); };
        const std::string left = fixed(std::ceil((*plan)->left.in(unit.unit) - 1e-9), 0) + " "
            + std::string(unit.symbol);
        rows = {{tablet_.label("app.waste.free"), volume((*plan)->free)},
                {tablet_.label("app.waste.usable"), volume((*plan)->usable)},
                {tablet_.label("app.waste.into-this"), volume((*plan)->first)},
                {tablet_.label("app.waste.stop-after"), asShown(fixed((*plan)->stopAt.in(units::minute), 1) + " min")},
                {tablet_.label("app.waste.full-then"), asShown(fixed((*plan)->fullMax.in(units::percent), 0) + " %")},
                {tablet_.label("app.waste.containers"),
                 (*plan)->containers == 1
                     ? QStringLiteral("1")
                     : tablet_.say({"app.waste.containers-more",
                                    {{"containers", std::to_string((*plan)->containers)}, {"left", left}}})}};
    }
    outcome_.setRows(std::move(rows));
}

void TransferView::showRecord(const run::Job& job)
{
    const run::TransferOpened& transfer = *job.transfer();
    const auto row = [&](const char* label, const std::string& value) {
        return RowModel::Row{tablet_.label(label), toQt(value.empty() ? "–" : value)};
    };
    const auto standing = run::jobStanding(job, tablet_.jobTime(job)).transfer;
    const auto& unit = tablet_.wants().volume != nullptr ? *tablet_.wants().volume : transfer.capacity.unit();
    QList<RowModel::Row> rows = {row("app.waste.from", transfer.tank),
                                 row("app.flush.cart", transfer.cart),
                                 row("app.waste.fluid", words::oilText(tablet_.words(), transfer.fluid)),
                                 row("app.waste.confirmed-by", transfer.confirmed),
                                 row("app.waste.to-move", asWanted(transfer.planned, tablet_.wants()).toStdString()),
                                 row("app.waste.usable", standing->usable ? roundedDown(*standing->usable, unit) : "")};
    for (const run::CheckAnswered& check : transfer.checks) {
        const auto answer = run::answerNamed(check.say);
        if (answer == run::Answer::Skipped) {
            rows.append({tablet_.say({"check." + check.check, {}}),
                         asShown(words::answerText(tablet_.words(), *answer, check.why, check.wasAsked))});
        }
    }
    for (const run::JobFact& fact : job.facts) {
        if (const auto* stopped = std::get_if<run::TransferStopped>(&fact.said)) {
            rows.append(
                row("app.waste.moved",
                    (stopped->moved ? asWanted(*stopped->moved, tablet_.wants()) : tablet_.label("app.setup.not-known"))
                        .toStdString()));
            rows.append(row("app.waste.stopped-by",
                            (tablet_.nameOf(fact.header.person) + QLatin1Char(' ') + clockText(fact.header.entered))
                                .toStdString()));
        }
    }
    outcome_.setRows(std::move(rows));
}

/// What was moved, as somebody told it.
QString TransferView::movedText(const run::Job* known) const
{
    if (known != nullptr) {
        for (const run::JobFact& fact : known->facts) {
            const auto* stopped = std::get_if<run::TransferStopped>(&fact.said);
            if (stopped != nullptr && stopped->moved) {
                return asWanted(*stopped->moved, tablet_.wants());
            }
        }
    }
    return tablet_.label("app.planned.not-said");
}

/// The words that the law of the United States asks for are among the first, whatever the language.
void TransferView::showLabel()
{
    QList<RowModel::Row> rows;
    const run::Job* known = job();
    if (known != nullptr || tank() != nullptr) {
        const std::string from = known != nullptr ? known->transfer()->tank : tank()->name;
        const std::string fluid = known != nullptr ? known->transfer()->fluid : run::fluidText(tank()->fluid);
        rows = {{tablet_.label("label.oil")},
                {tablet_.say({"app.waste.label-from", {{"tank", from}}})},
                {tablet_.say({"app.waste.label-fluid", {{"fluid", fluid}}})},
                {tablet_.say({"app.waste.label-volume", {{"volume", movedText(known).toStdString()}}})},
                {tablet_.say({"app.waste.label-date",
                              {{"date",
                                dayText(known != nullptr ? known->opened.entered : tablet_.now())
                                    .left(dayLength)
                                    .toStdString()}}})}};
    }
    label_.setRows(std::move(rows));
    const bool areWanted = records_ != nullptr && !records_->isBusy() && phase_ == Phase::Stopped && known != nullptr;
    labelKeys_.setRows(areWanted ? labelKeysFor(tablet_, media_()) : QList<RowModel::Row>());
}

void TransferView::setRecords(RecordOut* records)
{
    records_ = records;
    if (records_ != nullptr) {
        connect(records_, &RecordOut::changed, this, &TransferView::refresh);
    }
    refresh();
}

void TransferView::lookAt(std::function<QStringList()> media)
{
    media_ = std::move(media);
    refresh();
}

void TransferView::writeLabel(const QString& say)
{
    const auto folder = labelsFolder(say);
    if (records_ != nullptr && folder && phase_ == Phase::Stopped && job() != nullptr) {
        records_->beginLabels(*job(), *folder);
    }
}

QString TransferView::labelsText() const
{
    return records_ == nullptr || job() == nullptr ? QString()
                                                   : writtenText(tablet_, *records_, RecordOut::What::Labels, job_);
}

QString TransferView::source() const
{
    return job() != nullptr ? toQt(job()->transfer()->tank) : tank() != nullptr ? toQt(tank()->name) : QString();
}

std::optional<run::RunTime> TransferView::stopAt() const
{
    const run::Job* known = job();
    return known == nullptr ? std::nullopt : run::jobStanding(*known, tablet_.jobTime(*known)).transfer->stopAt;
}

QString TransferView::countdown() const
{
    const auto stop = stopAt();
    return stop ? minutesText(*stop - tablet_.jobTime(*job())) : QStringLiteral("–");
}

qreal TransferView::timeLeft() const
{
    const auto stop = stopAt();
    if (!stop || stop->count() <= 0) {
        return 0.0;
    }
    return std::clamp(1.0 - static_cast<double>(tablet_.jobTime(*job()).count()) / static_cast<double>(stop->count()),
                      0.0, 1.0);
}

/// What a reading of the tank said not long ago; of older ones nothing is known of the oil now.
run::Circumstances TransferView::circumstances() const
{
    const std::string tank = source().toStdString();
    for (const auto& [id, run] : std::views::reverse(tablet_.state().runs)) { // ids rise with time
        if (run.setup.tank.name == tank) {
            const run::Moment* last = tablet_.standing(run).lastReading;
            return last != nullptr && tablet_.runTime(run) - last->at <= oilStaysAsWarm
                ? run::circumstancesOf(run, tablet_.standing(run))
                : run::Circumstances{};
        }
    }
    return {};
}

QString TransferView::caution() const
{
    return cautionText(tablet_, phase_ == Phase::Running ? run::Act::Transfer : run::Act::Disconnect, circumstances());
}

bool TransferView::isOverdue() const
{
    const run::Job* known = job();
    return phase_ == Phase::Running && known != nullptr
        && run::jobStanding(*known, tablet_.jobTime(*known)).transfer->isStopOverdue;
}

QString TransferView::mainText() const
{
    switch (phase_) {
    case Phase::Plan:
        return tablet_.label("app.waste.to-confirm");
    case Phase::Confirm:
        return tablet_.label("app.waste.started");
    case Phase::Running:
        return tablet_.label("app.key.stopped");
    case Phase::Measure:
        return tablet_.label("app.waste.log-moved");
    case Phase::Stopped:
        break;
    }
    return tablet_.label("label.flush-cart");
}

void TransferView::goOn()
{
    if (!problem_.isEmpty()) {
        return;
    }
    switch (phase_) {
    case Phase::Plan:
        phase_ = Phase::Confirm;
        break;
    case Phase::Confirm:
        start();
        break;
    case Phase::Running:
        stoppedAt_ = tablet_.now();
        phase_ = Phase::Measure;
        break;
    case Phase::Measure:
        stop(moved_.typed<units::Volume>(0));
        break;
    case Phase::Stopped:
        break;
    }
    refresh();
}

void TransferView::start()
{
    const std::string by = plateFits() ? plate_.text(0).toUpper().toStdString()
                                       : fluidsOf(tablet_.site())[static_cast<std::size_t>(fluid_)].text;
    const auto opened = tablet_.openJob(run::TransferOpened{.tank = tank()->name,
                                                            .cart = chosenCart()->name,
                                                            .fluid = run::fluidText(tank()->fluid),
                                                            .family = tank()->fluid.kind,
                                                            .capacity = *fields_.typed<units::Volume>(Capacity),
                                                            .holds = fields_.typed<units::Volume>(Holds),
                                                            .planned = *fields_.typed<units::Volume>(ToMove),
                                                            .flow = chosenCart()->flow,
                                                            .valve = valveModes.at(static_cast<std::size_t>(valve_)),
                                                            .stream = "used oil",
                                                            .confirmed = by,
                                                            .checks = looked_});
    if (opened) {
        kept_.forget();
        job_ = *opened;
        phase_ = Phase::Running;
    }
}

void TransferView::stop(std::optional<run::TypedVolume> moved)
{
    const auto agoMs = static_cast<std::int64_t>((tablet_.now().monoNs - stoppedAt_.monoNs) / 1'000'000U);
    const run::Observed observed = agoMs > 0 ? run::Observed{agoMs, "said"} : run::Observed{};
    if (tablet_.sayOfJob(job_, run::TransferStopped{std::move(moved), {}}, observed)) {
        phase_ = Phase::Stopped;
    }
}

void TransferView::leaveUnread()
{
    if (phase_ == Phase::Measure) {
        stop(std::nullopt);
        refresh();
    }
}

void TransferView::takeTag(const QString& code)
{
    plate_.clear();
    for (const QChar sign : code.right(plateSigns)) {
        plate_.key(QString(sign));
    }
}

void TransferView::back()
{
    if (phase_ == Phase::Confirm) {
        phase_ = Phase::Plan;
        refresh();
    }
}

void TransferView::chooseTank(int row)
{
    tank_ = row;
    fluid_ = -1;
    lookAnew(); // what was looked at held for another tank
    plate_.clear();
    refresh();
}

void TransferView::chooseCart(int row)
{
    cart_ = row;
    valve_ = -1;
    refresh();
}

void TransferView::chooseFluid(int row)
{
    fluid_ = row;
    refresh();
}

void TransferView::chooseValve(int row)
{
    valve_ = row;
    refresh();
}

} // namespace loopside::app
