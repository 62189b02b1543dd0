// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Series of readings as comma-separated values. The first byte says which kind of file it is.

#include "cli/series_file.h"
#include "fuzz/target.h"

#include <sys/mman.h>
#include <unistd.h>

#include <string>

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static const int file = memfd_create("series", 0);
    static const std::string path = "/proc/self/fd/" + std::to_string(file);
    if (size == 0) {
        return 0;
    }
    const auto kind = data[0] % 2 == 0 ? cli::SeriesKind::Readings : cli::SeriesKind::History;
    fuzz::must(ftruncate(file, 0) == 0 && pwrite(file, data + 1, size - 1, 0) == static_cast<ssize_t>(size - 1),
               "the file cannot be written");
    const auto series = cli::readSeries(path, kind);
    fuzz::must(series || !series.error().sentence.empty(), "a refusal says nothing");
    return 0;
}
