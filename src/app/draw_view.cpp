// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/draw_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/draft_places.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "site/results_file.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

enum Field
{
    Oil,
    Purged
};

constexpr std::array<const char*, 2> machineStates = {"running", "idle"}; ///< As entries have them.

std::vector<FieldsView::Field> fieldsOf(const Tablet& tablet)
{
    return {{tablet.label("app.draw.oil"), {QStringLiteral("°C"), QStringLiteral("°F")}},
            {tablet.label("app.draw.purged"), {QStringLiteral("mL"), QStringLiteral("L"), QStringLiteral("gal")}}};
}

template<class Q>
bool isFaulty(const FieldsView& fields, int field)
{
    return !fields.isEmpty(field) && !fields.typed<Q>(field);
}

} // namespace

DrawView::DrawView(Tablet& tablet, QObject* parent)
    : QObject{parent},
      tablet_{tablet},
      places_{{"name", "detail", "isChosen"}},
      machines_{{"name", "detail", "isChosen"}},
      fields_{fieldsOf(tablet)},
      tag_{tablet, kitDrafts},
      point_{tablet, kitDrafts},
      port_{tablet, kitDrafts},
      machine_{tablet, kitDrafts},
      timer_{tablet, kitDrafts}
{
    connect(&fields_, &FieldsView::changed, this, &DrawView::told);
    for (const OwnWords* words : {&tag_, &point_, &port_, &machine_}) {
        connect(words, &OwnWords::changed, this, &DrawView::told);
    }
    connect(this, &DrawView::told, this, &DrawView::refresh);
    connect(&tablet_, &Tablet::secondPassed, this, &DrawView::timeChanged);
}

void DrawView::about(const std::string& key, const std::optional<run::KitBottle>& bottle, const run::SampleSeen* first)
{
    const std::string subject = toText(tablet_.shown()->id) + "." + key;
    usual_ = bottle ? bottle->port : std::nullopt;
    likeText_.clear();
    if (first != nullptr && bottle && bottle->part == run::KitPart::After) {
        QStringList parts = {placeName(first->drawn->port), toQt(first->drawn->point)};
        parts.append(first->oil ? asShown(fixed(first->oil->in(units::celsius), 0) + " °C") : QString());
        parts.append(first->drawn->machine.empty() ? QString()
                                                   : tablet_.say({"app.draw.machine." + first->drawn->machine, {}}));
        parts.removeAll(QString());
        likeText_ = tablet_.say(
            {"app.draw.like", {{"first", first->drawn->id}, {"how", parts.join(QStringLiteral(" · ")).toStdString()}}});
    }
    std::vector<FieldsView::Field> fields = fieldsOf(tablet_);
    preferUnits(fields, tablet_.wants());
    fields_.setFields(std::move(fields));
    wasTyped_ = fields_.keepIn(tablet_.drafts(), kitDrafts, toQt(subject));
    tag_.about(subject + ".tag");
    point_.about(subject + ".point");
    port_.about(subject + ".port");
    machine_.about(subject + ".machine");
    timer_.about(subject + ".purge");
    wasTyped_ = wasTyped_ || !tag_.text().isEmpty() || !point_.text().isEmpty() || timer_.seconds().has_value();
    refresh();
    Q_EMIT timeChanged();
}

QString DrawView::placeName(int port) const
{
    return port == 0 ? tablet_.label("app.draw.tank")
                     : tablet_.say({"app.draw.port", {{"port", std::to_string(port)}}});
}

QString DrawView::placeDetail(int port) const
{
    const int last = static_cast<int>(tablet_.shown()->setup.cart.gauges.size());
    return tablet_.label(port == 0         ? "app.draw.shows-tank"
                             : port == 1   ? "app.draw.shows-before"
                             : port < last ? "app.draw.shows-between"
                                           : "app.draw.shows-behind");
}

/// As somebody chose, else where such a bottle is drawn.
std::optional<int> DrawView::port() const
{
    return port_.text().isEmpty() ? usual_ : std::optional(port_.text().toInt());
}

void DrawView::refresh()
{
    if (tablet_.shown() == nullptr) {
        return;
    }
    QList<RowModel::Row> places;
    for (int i = 0; i <= static_cast<int>(tablet_.shown()->setup.cart.gauges.size()); ++i) {
        places.append({placeName(i), placeDetail(i), port() == i});
    }
    places_.setRows(std::move(places));
    QList<RowModel::Row> machines;
    for (const char* state : machineStates) {
        machines.append({tablet_.say({std::string("app.draw.machine.") + state, {}}), QString(),
                         machine_.text() == QLatin1String(state)});
    }
    machines_.setRows(std::move(machines));
    Q_EMIT changed();
}

std::string DrawView::name() const
{
    const QString told = tag_.text().trimmed();
    if (!told.isEmpty() || tablet_.shown() == nullptr) {
        return told.toStdString();
    }
    const auto& facts = tablet_.shown()->facts;
    const auto count = std::ranges::count_if(
        facts, [](const run::Fact& fact) { return std::holds_alternative<run::SampleDrawn>(fact.original); });
    constexpr std::size_t signsOfRun = 30; // of its id: the last six stand in the name
    return toText(tablet_.shown()->id).substr(signsOfRun) + "-" + std::to_string(count + 1);
}

QString DrawView::tagHint() const
{
    return tablet_.say({"app.draw.tag-hint", {{"sample", name()}}});
}

QString DrawView::caution() const
{
    return tablet_.shown() == nullptr ? QString() : cautionText(tablet_, run::Act::Sample);
}

QString DrawView::circulationText() const
{
    const auto& standing = tablet_.standing(*tablet_.shown());
    const auto since = run::circulatingSince(standing);
    return since
        ? tablet_.say({"app.draw.circulates", {{"minutes", std::to_string((standing.now - *since).count() / 60000)}}})
        : tablet_.label("app.draw.stands");
}

QString DrawView::howText() const
{
    if (tablet_.shown() == nullptr) {
        return {};
    }
    QStringList parts = {likeText_, circulationText(), tablet_.label("app.draw.how")};
    parts.removeAll(QString());
    return parts.join(QLatin1Char(' '));
}

QString DrawView::timerText() const
{
    const auto ran = timer_.seconds();
    return timer_.isLost() ? tablet_.label("app.draw.purge-lost")
        : ran              ? minutesText(std::chrono::seconds(*ran))
                           : QString();
}

QString DrawView::timerKey() const
{
    return tablet_.label(timer_.isRunning() && !timer_.isLost() ? "app.draw.purge-ends"
                             : timer_.seconds()                 ? "app.draw.purge-again"
                                                                : "app.draw.purge-begins");
}

void DrawView::choosePlace(int row)
{
    port_.setText(QString::number(row));
}

/// A second touch takes it back: nobody needs to tell.
void DrawView::chooseMachine(int row)
{
    const QString state = QLatin1String(machineStates.at(static_cast<std::size_t>(row)));
    machine_.setText(machine_.text() == state ? QString() : state);
}

void DrawView::pressTimer()
{
    timer_.press();
    Q_EMIT timeChanged();
    Q_EMIT told();
}

QString DrawView::problem() const
{
    if (!port()) {
        return tablet_.label("app.draw.choose-place");
    }
    if (isFaulty<units::Temperature>(fields_, Oil) || isFaulty<units::Volume>(fields_, Purged)) {
        return tablet_.label("app.draw.no-number");
    }
    return {};
}

QStringList DrawView::doubts() const
{
    constexpr units::Temperature coldest = -30.0 * units::celsius;
    constexpr units::Temperature hottest = 120.0 * units::celsius;
    constexpr double most_l = 20.0;
    QStringList odd;
    const auto& state = tablet_.state();
    const auto bottles = site::bottlesOf(state);
    if (std::ranges::any_of(bottles, [&](const site::KnownBottle& bottle) { return bottle.id == name(); })) {
        odd.append(tablet_.say({"app.draw.odd.tag", {{"sample", name()}}}));
    }
    if (tablet_.shown()->phase != run::Phase::Closed && !run::circulatingSince(tablet_.standing(*tablet_.shown()))) {
        odd.append(tablet_.label("app.draw.odd.stands"));
    }
    const auto oil = fields_.typed<units::Temperature>(Oil);
    if (oil && (oil->value() < coldest || oil->value() > hottest)) {
        odd.append(asShown(tablet_.words().say({"app.draw.odd.oil", {{"oil", oil->toText()}}})));
    }
    const auto purged = fields_.typed<units::Volume>(Purged);
    if (purged && purged->value().in(units::litre) > most_l) {
        odd.append(asShown(tablet_.words().say({"app.draw.odd.purged", {{"volume", purged->toText()}}})));
    }
    return odd;
}

std::optional<std::string> DrawView::log()
{
    if (!problem().isEmpty()) {
        return std::nullopt;
    }
    run::SampleDrawn drawn{.id = name(),
                           .port = *port(),
                           .point = point_.text().trimmed().toStdString(),
                           .machine = machine_.text().toStdString()};
    drawn.oil = fields_.typed<units::Temperature>(Oil);
    drawn.purged = fields_.typed<units::Volume>(Purged);
    drawn.purgedS = timer_.seconds();
    if (!tablet_.say(run::Said(drawn))) {
        return std::nullopt;
    }
    fields_.clear();
    for (OwnWords* words : {&tag_, &point_, &port_, &machine_}) {
        words->clear();
    }
    timer_.clear();
    return drawn.id;
}

} // namespace loopside::app
