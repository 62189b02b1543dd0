// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

namespace loopside::app {

/// The names of what `alertRows` holds, for a RowModel: level (stop, limit, caution, note), text (as it was told),
/// became (when it was raised, who acknowledged it and why, when it was over), stands.
[[nodiscard]] QList<QByteArray> alertRoles();

/// Every raising of an alert of `run`, the latest first.
[[nodiscard]] QList<RowModel::Row> alertRows(const Tablet& tablet, const run::RunState& run);

/// What stop-now told of at the last set or since, whether it holds still or the pump was stopped for it: a few words.
/// Empty if it told of nothing.
[[nodiscard]] QString stopSinceLastSet(const Tablet& tablet, const run::RunState& run);

} // namespace loopside::app
