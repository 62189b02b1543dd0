// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/look_told.h"

#include "words/oil_told.h"

namespace loopside::words {

std::string lookLine(const Words& words, const run::TankLook& look)
{
    const char* id = look.fits  ? "tank.look.fits"
        : look.expected.empty() ? "tank.look.bare"
        : look.of.empty()       ? "tank.look.unfit"
                                : "tank.look.other";
    const std::string read = look.by == run::LookBy::Oil ? oilText(words, look.read) : look.read;
    const std::string line = words.say({id,
                                        {{"by", words.say("tank.look." + std::string(run::nameOf(look.by)))},
                                         {"read", read},
                                         {"tank", look.expected},
                                         {"of", look.of}}});
    return look.why.empty() ? line : line + " " + words.say({"tank.look.why", {{"why", look.why}}});
}

std::string knownText(const Words& words, run::TankKnown known)
{
    return words.say("tank.known." + std::string(run::nameOf(known)));
}

} // namespace loopside::words
