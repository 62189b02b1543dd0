// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/caution_text.h"

namespace loopside::app {

QString cautionText(const Tablet& tablet, run::Act act, const run::Circumstances& circumstances, std::string_view said)
{
    QStringList cautions;
    QStringList rules;
    for (const run::Caution& caution : run::cautionsAt(act, circumstances)) {
        if (caution.id != said) {
            cautions.append(tablet.say(caution.says));
        }
        for (const Message& rule : caution.rules) {
            rules.append(tablet.say(rule));
        }
    }
    rules.removeDuplicates();
    const QString general = tablet.label("caution.rule.site");
    if (rules.removeOne(general)) {
        rules.append(general); // it holds for all of them
    }
    return (cautions + rules).join(QLatin1Char(' '));
}

run::Circumstances circumstancesOf(const Tablet& tablet)
{
    const run::RunState* run = tablet.shown();
    return run == nullptr ? run::Circumstances{} : run::circumstancesOf(*run, tablet.standing(*run));
}

QString cautionText(const Tablet& tablet, run::Act act, std::string_view said)
{
    return cautionText(tablet, act, circumstancesOf(tablet), said);
}

} // namespace loopside::app
