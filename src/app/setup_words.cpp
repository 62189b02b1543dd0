// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/setup_words.h"

#include "app/as_shown.h"
#include "app/wanted_units.h"
#include "app/wording.h"
#include "base/text.h"
#include "filtration/flush.h"
#include "run/tank_past.h"
#include "words/oil_told.h"

namespace loopside::app {

namespace {

std::string orUnknown(const Tablet& tablet, const std::string& text)
{
    return text.empty() ? tablet.label("app.setup.not-known").toStdString() : text;
}

template<class Typed>
std::string orUnknown(const Tablet& tablet, const std::optional<Typed>& typed)
{
    return orUnknown(tablet, typed ? typed->toText() : std::string());
}

const char* limitId(filtration::LimitConflict conflict)
{
    switch (conflict) {
    case filtration::LimitConflict::NoLimitKnown:
        return "app.limit.none";
    case filtration::LimitConflict::AboveBypass:
        return "app.limit.above-bypass";
    case filtration::LimitConflict::WithinGaugeError:
        return "app.limit.within-error";
    case filtration::LimitConflict::AboveRelief:
        return "app.limit.above-relief";
    case filtration::LimitConflict::CleanAboveHalf:
        return "app.limit.clean-above-half";
    case filtration::LimitConflict::CleanAboveThird:
        break;
    }
    return "app.limit.clean-above-third";
}

filtration::SuitLevel limitLevel(filtration::LimitConflict conflict)
{
    switch (conflict) {
    case filtration::LimitConflict::AboveBypass:
    case filtration::LimitConflict::AboveRelief:
        return filtration::SuitLevel::Conflict;
    case filtration::LimitConflict::CleanAboveThird:
        return filtration::SuitLevel::Note;
    default:
        return filtration::SuitLevel::Caution;
    }
}

RowModel::Row row(const Tablet& tablet, const std::string& label, const std::string& value)
{
    return {tablet.label(label.c_str()), toQt(value)};
}

} // namespace

QString signOf(filtration::SuitLevel level)
{
    switch (level) {
    case filtration::SuitLevel::Ok:
        return QStringLiteral("ok");
    case filtration::SuitLevel::Note:
        return QStringLiteral("note");
    case filtration::SuitLevel::Caution:
        return QStringLiteral("caution");
    case filtration::SuitLevel::Conflict:
        break;
    }
    return QStringLiteral("no-go");
}

QString joined(QStringList parts)
{
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

QList<RowModel::Row> tankFacts(const Tablet& tablet, const run::TankRecord& tank)
{
    const run::TankPast past = run::pastOf(tablet.state(), tank.name);
    const std::string oil = words::oilText(tablet.words(), run::fluidText(tank.fluid));
    QList<RowModel::Row> rows = {row(tablet, "app.fact.fluid", orUnknown(tablet, oil)),
                                 row(tablet, "app.fact.volume", asWanted(tank.volume, tablet.wants()).toStdString())};
    const auto tell = [&](const std::string& label, const auto& samples, auto told, const std::string& typed) {
        if (samples.empty()) {
            rows.append(row(tablet, label, orUnknown(tablet, typed)));
            return;
        }
        const std::string& latest = samples.front().*told;
        rows.append(row(tablet, label, latest + " (" + dateText(samples.front().drawn).toStdString() + ")"));
        if (!typed.empty() && typed != latest) {
            rows.append(row(tablet, label + "-typed", typed));
        }
    };
    tell("app.fact.code", past.codes, &run::CodeTold::code, tank.code);
    tell("app.fact.water", past.waters, &run::WaterTold::water, tank.water ? tank.water->toText() : std::string());
    return rows;
}

QList<RowModel::Row> cartFacts(const Tablet& tablet, const run::CartRecord& cart, const run::TankRecord* tank)
{
    QList<RowModel::Row> rows = {
        {tablet.label("app.fact.flow"), asWanted(cart.flow, tablet.wants())},
        {tablet.label("app.fact.last-fluid"), toQt(orUnknown(tablet, words::oilText(tablet.words(), cart.lastFluid)))},
        {tablet.label("app.fact.hold-up"),
         cart.holdUp ? asWanted(*cart.holdUp, tablet.wants()) : toQt(orUnknown(tablet, std::string()))}};
    if (tank != nullptr && cart.holdUp) {
        if (const auto part = filtration::carryOver(cart.holdUp->value(), tank->volume.value())) {
            rows.append({tablet.label("app.fact.carry-over"), asShown(fixed(part->in(units::percent), 1) + " %")});
        }
    }
    return rows;
}

QString stageTitle(const Tablet& tablet, const run::StageRecord& stage, int number)
{
    const QString kind = tablet.label(stage.kind == "water" ? "app.stage.water" : "app.stage.particle");
    const QString rating = stage.ratingUm ? QLatin1Char(' ') + toQt(stage.ratingUm->toText()) + QStringLiteral(" µm")
                                          : QString();
    return asShown(tablet.say({"app.stage", {{"stage", std::to_string(number)}}})
                   + QStringLiteral(": %1 × ").arg(stage.elements) + kind + rating);
}

QString ratings(const std::vector<run::StageRecord>& stages)
{
    QStringList all;
    for (const run::StageRecord& stage : stages) {
        all.append(stage.ratingUm ? toQt(stage.ratingUm->toText()) : QStringLiteral("?"));
    }
    return asShown(all.join(QStringLiteral(" → ")) + QStringLiteral(" µm"));
}

QList<Heed> limitHeeds(const Tablet& tablet, const run::Setup& setup, const run::Plan& plan)
{
    QList<Heed> heeds;
    for (std::size_t i = 0; i < plan.stages.size(); ++i) {
        const run::StageRecord& stage = setup.stages[i];
        for (const filtration::LimitFinding& finding : plan.stages[i].limits) {
            heeds.append({limitLevel(finding.conflict),
                          tablet.say({limitId(finding.conflict),
                                      {{"stage", std::to_string(i + 1)},
                                       {"limit", orUnknown(tablet, stage.changeLimit)},
                                       {"bypass", orUnknown(tablet, stage.bypass)},
                                       {"relief", orUnknown(tablet, setup.cart.relief)}}})});
        }
    }
    return heeds;
}

QString levelText(const Tablet& tablet, const run::Setup& setup)
{
    if (!setup.cart.holdUp) {
        return tablet.label("app.hoses.level-unknown");
    }
    const auto part = filtration::carryOver(setup.cart.holdUp->value(), setup.tank.volume.value());
    return tablet.say(
        {"app.hoses.level",
         {{"volume", setup.cart.holdUp->toText()}, {"part", part ? fixed(part->in(units::percent), 1) + " %" : "?"}}});
}

QString spanText(units::Duration span)
{
    const double hours = span.in(units::hour);
    return toQt(hours < 1.5 ? fixed(span.in(units::minute), 0) + " min" : fixed(hours, 1) + " h");
}

} // namespace loopside::app
