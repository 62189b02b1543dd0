// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/interest.h"

#include "ledger/handed.h"

#include <algorithm>
#include <limits>

namespace loopside::handover {

std::set<sync::Topic> interestOf(const run::State& state, const Id& device, const std::set<std::string>& codes)
{
    using sync::Topic;
    std::set<Topic> interest = {Topic::catalogue(), Topic::learned(), Topic::handedTo(device)};
    for (const auto& [id, run] : state.runs) {
        if (run.phase == run::Phase::Closed || run.isPutAway || run.setup.isPractice) {
            continue;
        }
        interest.insert(Topic::run(id));
        if (ledger::holderOf(run) == device && run.setup.tank.name.size() + sizeof "tank" <= sync::topicBytesMax) {
            interest.insert(Topic::tank(run.setup.tank.name));
        }
    }
    const ledger::LinksSaid said = ledger::linksSaid(state);
    std::set<run::RunPair> pairs = said.accepted;
    for (const run::RunPair& pair : run::linkProposals(state, said.all(), std::numeric_limits<std::int64_t>::max())) {
        pairs.insert(pair);
    }
    for (const auto& [one, other] : pairs) {
        interest.insert({Topic::run(one), Topic::run(other)});
    }
    for (const std::string& code : codes) {
        interest.insert(Topic::code(code));
    }
    return interest;
}

} // namespace loopside::handover
