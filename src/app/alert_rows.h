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

} // namespace loopside::app
