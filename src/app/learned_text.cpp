// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/learned_text.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/tank_learned.h"
#include "units/wanted.h"
#include "words/tank_told.h"

#include <QStringList>

namespace loopside::app {

namespace {

QString lineOf(const std::string& label, const std::string& text)
{
    return toQt(label) + QStringLiteral(": ") + asShown(text);
}

/// Of each stage whose clean elements were seen before.
QStringList cleanLines(const Tablet& tablet, const run::Setup& setup)
{
    QStringList lines;
    for (std::size_t i = 0; i < setup.stages.size(); ++i) {
        const int stage = static_cast<int>(i) + 1;
        const run::CleanLearned clean = run::cleanLearned(tablet.state(), setup, stage);
        if (clean.runs == 0 || !clean.drop_pa) {
            continue;
        }
        const auto& unit = units::unitOf(*setup.cart.gauges[i].unit, tablet.wanted());
        const auto text = [&](double pa) { return units::printComputed(pa * units::pascal, unit); };
        lines.append(lineOf(tablet.words().say("across.clean"),
                            tablet.words().say({"across.cleaned",
                                                {{"cart", setup.cart.name},
                                                 {"stage", std::to_string(stage)},
                                                 {"type", setup.stages[i].type},
                                                 {"least", text(clean.drop_pa->low)},
                                                 {"most", text(clean.drop_pa->high)},
                                                 {"runs", std::to_string(clean.runs)}}})));
    }
    return lines;
}

} // namespace

QString learnedText(const Tablet& tablet, const run::Setup& setup)
{
    const run::TankPast past = run::pastOf(tablet.state(), setup.tank.name);
    QStringList lines;
    if (past.runs > 0) {
        for (const words::LineTold& line : words::learnedOfTank(tablet.words(), past, setup.tank.mixing)) {
            lines.append(lineOf(line.label, line.text));
        }
    }
    return (lines + cleanLines(tablet, setup)).join(QLatin1Char('\n'));
}

} // namespace loopside::app
