// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"
#include "run/plan.h"

#include <QList>

namespace loopside::app {

/// Something to heed, with its weight.
struct Heed
{
    filtration::SuitLevel level;
    QString text;
};

/// The shape of `Sign` for a weight.
[[nodiscard]] QString signOf(filtration::SuitLevel level);

/// "ISO VG 46 · hydraulic · 760 L"; empty parts are left out.
[[nodiscard]] QString joined(QStringList parts);

/// What is known of a tank: what a sample told last goes before what the record says, with its day; where they differ,
/// both. Rows: name, value.
[[nodiscard]] QList<RowModel::Row> tankFacts(const Tablet& tablet, const run::TankRecord& tank);

/// What is known of a cart, and what it would carry into `tank`, if there is one. Rows: name, value.
[[nodiscard]] QList<RowModel::Row> cartFacts(const Tablet& tablet, const run::CartRecord& cart,
                                             const run::TankRecord* tank);

/// "Stage 1: 2 × particle 10 µm".
[[nodiscard]] QString stageTitle(const Tablet& tablet, const run::StageRecord& stage, int number);

/// "10 → 3 µm".
[[nodiscard]] QString ratings(const std::vector<run::StageRecord>& stages);

/// What stands against a stage's change limit.
[[nodiscard]] QList<Heed> limitHeeds(const Tablet& tablet, const run::Setup& setup, const run::Plan& plan);

/// How the oil moves when the cart fills.
[[nodiscard]] QString levelText(const Tablet& tablet, const run::Setup& setup);

/// Hours as a person says them: "45 min", "3.7 h".
[[nodiscard]] QString spanText(units::Duration span);

} // namespace loopside::app
