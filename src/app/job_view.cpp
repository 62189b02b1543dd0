// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/job_view.h"

#include "app/draft_places.h"
#include "app/planned_job.h"
#include "app/setup_words.h"
#include "app/site.h"
#include "app/wanted_units.h"
#include "app/wording.h"

namespace loopside::app {

namespace {

constexpr int longestCode = 8;
constexpr int longestDay = 10;
constexpr int longestText = 40;

} // namespace

JobView::JobView(Tablet& tablet, QObject* parent) : RecordView{tablet, "job", jobDrafts, parent}
{
    refresh();
}

QString JobView::stateOf(const run::RecordPut& record) const
{
    const run::JobRecord& job = std::get<run::JobPut>(record).job;
    return joined({toQt(job.tank), plannedStateOf(tablet(), job).text});
}

QList<RowModel::Row> JobView::factsOf(const run::RecordPut& record) const
{
    const run::JobRecord& job = std::get<run::JobPut>(record).job;
    QList<RowModel::Row> rows;
    const auto add = [&](const char* name, const QString& value) {
        rows.append({tablet().label(name), value.isEmpty() ? tablet().label("app.planned.not-said") : value});
    };
    add("record.tank", toQt(job.tank));
    add("record.cart", toQt(job.cart));
    add("record.turnovers", toQt(textIn(job.turnovers)));
    add("record.target_code", toQt(job.code));
    add("record.target_source", toQt(job.source));
    add("record.due", toQt(job.due));
    add("record.reason", toQt(job.reason));
    add("record.reserved", toQt(textIn(job.elements)));
    return rows;
}

std::vector<HistoryLine> JobView::workOf(const std::string& name) const
{
    return workForJob(tablet(), name);
}

/// The tank and the target.
RecordView::Group JobView::what(bool isKnown)
{
    run::JobRecord& job = put_.job;
    const auto label = [this](const char* id) { return tablet().label(id); };
    Group group;
    group.name = label("record.target");
    group.fields = {editable(label("record.turnovers"), job.turnovers, {}, isKnown),
                    editable(label("record.target_code"), job.code, {}, isKnown,
                             {.name = {}, .longest = longestCode, .point = QStringLiteral("/")}),
                    editable(label("app.planned.due-field"), job.due, {}, isKnown,
                             {.name = {}, .longest = longestDay, .point = QStringLiteral("-")})};
    group.choicesTitle = label("record.tank");
    group.isChoiceNeeded = true;
    tanks_ = tankNames(tablet().site());
    for (const run::TankRecord& tank : tablet().site().tanks) {
        group.choices.append(choice(toQt(tank.name), shownText(tank.volume, tablet().wanted())));
    }
    group.pick = [this](int row) { put_.job.tank = tanks_.at(static_cast<std::size_t>(row)); };
    return group;
}

/// The cart, the reason, and what else a planner knows.
RecordView::Group JobView::why(bool isKnown)
{
    run::JobRecord& job = put_.job;
    const auto label = [this](const char* id) { return tablet().label(id); };
    const FieldsView::Field text{.name = {}, .longest = longestText, .takesLetters = true};
    Group group;
    group.name = label("app.planned.reason-and-cart");
    group.fields = {editable(label("record.reserved"), job.elements, {}, isKnown),
                    editable(label("record.reason"), job.reason, {}, isKnown, text),
                    editable(label("record.target_source"), job.source, {}, isKnown, text)};
    group.choicesTitle = label("record.cart");
    carts_ = cartNames(tablet().site());
    for (const SiteCart& cart : tablet().site().carts) {
        group.choices.append(choice(toQt(cart.cart.name), shownText(cart.cart.flow, tablet().wanted())));
    }
    group.pick = [this](int row) { put_.job.cart = carts_.at(static_cast<std::size_t>(row)); };
    return group;
}

std::vector<RecordView::Group> JobView::begin(const run::RecordPut* record)
{
    const bool isKnown = record != nullptr;
    put_ = isKnown ? std::get<run::JobPut>(*record) : run::JobPut{};
    return {what(isKnown), why(isKnown)};
}

} // namespace loopside::app
