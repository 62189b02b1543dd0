// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/code_told.h"

#include "base/text.h"

#include <cmath>

namespace loopside::words {

namespace {

std::string wayText(const Words& words, const run::CodeAhead& ahead, const run::RunState& run)
{
    if (ahead.isAtFloor()) {
        return words.say({"app.code.floor", {{"hours", fixed(run::moreHours, 0)}}});
    }
    if (!ahead.toTarget) {
        return {};
    }
    const auto& best = ahead.toTarget->best;
    if (!best) {
        return words.say({"app.code.never", {{"target", run.setup.target.code}}});
    }
    const double each = (run.setup.tank.volume.value() / run.setup.cart.flow.value()).in(units::minute);
    return words.say({*best > 0.0 ? "app.code.way" : "app.code.there",
                      {{"target", run.setup.target.code}, {"minutes", fixed(std::ceil(*best * each), 0)}}});
}

} // namespace

std::string codeBrief(const Words& words, const run::CodeAhead& ahead, const run::RunState& run)
{
    if (!ahead.nowBest || !ahead.nowMiddle || !ahead.nowWorst) {
        return {};
    }
    const bool isOne = *ahead.nowBest == *ahead.nowWorst;
    const std::string now = words.say({isOne ? "app.code.now-one" : "app.code.now",
                                       {{"code", ahead.nowMiddle->toText()},
                                        {"best", ahead.nowBest->toText()},
                                        {"worst", ahead.nowWorst->toText()}}});
    const std::string way = wayText(words, ahead, run);
    return way.empty() ? now : now + " · " + way;
}

} // namespace loopside::words
