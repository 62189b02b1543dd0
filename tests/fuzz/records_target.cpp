// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Files of records. The first byte says which kind of record.

#include "fuzz/target.h"
#include "site/preview.h"

#include <string>

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size == 0) {
        return 0;
    }
    const std::string_view kind = run::recordKinds[data[0] % run::recordKinds.size()];
    const std::string text(data + 1, data + size);
    const auto preview = site::previewOf("f.csv", text, kind, {}, {});
    fuzz::must(preview || !preview.error().say.id.empty(), "a refusal says nothing");
    for (std::size_t i = 0; preview && i < preview->rows.size(); ++i) {
        const site::PreviewRow& row = preview->rows[i];
        fuzz::must((row.fate == site::RowFate::Unreadable) == !row.faults.empty(), "a row is taken with a fault");
        fuzz::must(row.faults.empty() || (!row.put && !row.stock), "a row with a fault would be put");
    }
    return 0;
}
