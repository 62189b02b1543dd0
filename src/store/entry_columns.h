// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The columns of an entry, in the order of schema/tablet/0001_journal.sql after its position. A hub's database
// (src/hub/entry_row.h) gives them in the same order.

#pragma once

#include "ledger/entry.h"

namespace loopside::store {

/// Fills `entry` from `columns`, which gives one column after the other by `take`, or by `takeOrNone` what may be null.
template<class Columns>
void takeEntry(Columns& columns, ledger::Entry& entry)
{
    run::Header& header = entry.header;
    columns.take(entry.format);
    columns.take(header.id);
    columns.take(header.device);
    columns.take(entry.chain);
    columns.take(header.sequence);
    columns.take(header.clock);
    columns.takeOrNone(header.run);
    columns.take(header.person);
    columns.take(header.entered.wallMs);
    columns.take(header.entered.offsetMin);
    columns.take(header.entered.monoNs);
    columns.take(header.entered.boot);
    columns.take(header.observed.agoMs);
    columns.take(header.observed.how);
    columns.take(entry.kind);
    columns.take(entry.body);
    columns.take(entry.previous);
    columns.take(entry.hash);
    columns.take(entry.signature);
}

} // namespace loopside::store
