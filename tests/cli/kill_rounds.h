// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

namespace loopside::test {

/// Kills the replay of so many readings into a journal at a seeded moment, `rounds` times. Each time every reading that
/// was printed must stand in the journal, in order, and the journal must verify.
void checkProgramKills(int rounds, int readings);

} // namespace loopside::test
