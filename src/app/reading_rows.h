// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

namespace loopside::app {

/// Names of what a row of `readingRows` holds: name (values and units as typed), detail (when, and what became of it),
/// sign (unknown where it is in doubt, else empty), entry (its id).
[[nodiscard]] QList<QByteArray> readingRoles();

/// The last ten sets of `run`, the latest first, as they hold now.
[[nodiscard]] QList<RowModel::Row> readingRows(const Tablet& tablet, const run::RunState& run);

} // namespace loopside::app
