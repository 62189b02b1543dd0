// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

namespace loopside::app {

/// What program this is: its version, its licence. Rows: name, value.
[[nodiscard]] QList<RowModel::Row> aboutRows(const Tablet& tablet);

} // namespace loopside::app
