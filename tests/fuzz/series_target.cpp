// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Series of readings as comma-separated values. The first byte says which kind of file it is.

#include "cli/series_file.h"
#include "fuzz/target.h"

#include <string>

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    if (size == 0) {
        return 0;
    }
    const auto kind = data[0] % 2 == 0 ? cli::SeriesKind::Readings : cli::SeriesKind::History;
    const auto series = cli::seriesFrom("series.csv", std::string(data + 1, data + size), kind);
    fuzz::must(series || !series.error().sentence.empty(), "a refusal says nothing");
    return 0;
}
