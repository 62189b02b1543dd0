// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Tablets and a hub from many seeds (tests/sync/world.h): what happened in all of them, and each seed at fault.
// `sync_seeds [COUNT] [FROM]`

#include "sync/world.h"

#include <cstdio>
#include <cstdlib>

using loopside::test::Synced;

int main(int argc, char** argv)
{
    const std::uint64_t count = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 10'000;
    const std::uint64_t from = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
    Synced all;
    int faults = 0;
    for (std::uint64_t seed = from; seed < from + count; ++seed) {
        const Synced one = loopside::test::synchronise(seed);
        all.tablets += one.tablets;
        all.entries += one.entries;
        all.messages += one.messages;
        all.lost += one.lost;
        all.doubled += one.doubled;
        all.restarts += one.restarts;
        all.restores += one.restores;
        all.forks += one.forks;
        all.keptAside += one.keptAside;
        all.ahead += one.ahead;
        if (!one.firstFault.empty()) {
            ++faults;
            std::printf("%s\n", one.firstFault.c_str());
        }
    }
    std::printf(
        "%llu seeds: %zu tablets, %zu entries, %zu messages (%zu lost, %zu twice), %zu restarts, %zu put back to an "
        "older copy, %zu of them gone on with the old chain, %zu entries aside, %zu ahead: %d at fault\n",
        static_cast<unsigned long long>(count), all.tablets, all.entries, all.messages, all.lost, all.doubled,
        all.restarts, all.restores, all.forks, all.keptAside, all.ahead, faults);
    return faults == 0 ? 0 : 1;
}
