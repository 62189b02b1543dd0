// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/finding_rows.h"

#include "app/as_shown.h"
#include "app/stage_ahead.h"
#include "app/wording.h"
#include "run/level.h"
#include "words/outlook_told.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr std::string_view coldOil = "cold-oil"; // the one finding whose way out may be the bypass mode

QString linesOf(const words::Words& words, const std::vector<Message>& messages)
{
    QStringList lines;
    for (const Message& message : messages) {
        lines.append(asShown(words.say(message)));
    }
    return lines.join(QLatin1Char('\n'));
}

/// What stands no longer is told as seen.
QString headlineOf(const words::Words& words, const run::Standing& standing, const run::Finding& finding)
{
    const std::string said = words::findingSentence(words, finding);
    const bool stands = std::ranges::any_of(standing.findings,
                                            [&](const run::Finding& one) { return &one == &finding; });
    return asShown(stands ? said : words.say({"app.seen-before-stop", {{"what", said}}}));
}

/// Nothing where the finding has no such part.
QString saidOf(const words::Words& words, const Message& message)
{
    return message.id.empty() ? QString() : asShown(words.say(message));
}

QString aheadOf(const words::Words& words, const run::RunState& run, const run::Standing& standing,
                const std::optional<int>& stage)
{
    const auto number = static_cast<std::size_t>(stage.value_or(0));
    const run::Outlook* outlook = number > 0 && number <= standing.outlooks.size() ? &standing.outlooks[number - 1]
                                                                                   : firstToReach(standing);
    return outlook == nullptr
        ? QString()
        : asShown(run::tellsTimes(*outlook, standing) ? words::outlookSentence(words, *outlook, run, standing)
                                                      : words.say("outlook.not-filtering") + '.');
}

bool wasSaid(const run::RunState& run, const std::optional<run::QuestionAnswered>& answer)
{
    return answer && std::ranges::any_of(run.facts, [&](const run::Fact& fact) {
               const auto* said = std::get_if<run::QuestionAnswered>(&fact.effective);
               return said != nullptr && !fact.struck && *said == *answer;
           });
}

/// The finding behind the stop-now since the last set, which the pump's stop ended; null where there is none.
const run::Finding* endedByStop(const run::RunState& run, const run::Standing& standing)
{
    const auto stop = run::stopSinceLastSet(run, standing);
    const auto& ended = standing.diagnosis.ended;
    const auto found = std::ranges::find_if(ended, [&](const run::Finding& finding) {
        return stop && finding.stage == stop->stage
            && std::ranges::find(stop->told, Message::Argument("finding", finding.id)) != stop->told.end();
    });
    return found == ended.end() ? nullptr : &*found;
}

} // namespace

std::vector<const run::Finding*> findingsToShow(const run::RunState& run, const run::Standing& standing)
{
    std::vector<const run::Finding*> shown;
    if (const run::Finding* ended = endedByStop(run, standing)) {
        shown.push_back(ended);
    }
    for (const run::Finding& finding : standing.findings) {
        shown.push_back(&finding);
    }
    shown.resize(std::min(findingsShown, shown.size()));
    return shown;
}

QList<QByteArray> findingRoles()
{
    return {"level",   "text",  "act",     "hazard", "because",   "ruledOut",
            "confirm", "ahead", "canBeSo", "isSo",   "asksBypass"};
}

QList<RowModel::Row> findingRows(const words::Words& words, const run::RunState& run, const run::Standing& standing)
{
    QList<RowModel::Row> rows;
    for (const run::Finding* shown : findingsToShow(run, standing)) {
        const run::Finding& finding = *shown;
        const auto answer = thatItIsSo(standing, finding);
        rows.append({toQt(run::nameOf(finding.level)), headlineOf(words, standing, finding), saidOf(words, finding.act),
                     saidOf(words, finding.hazard), linesOf(words, finding.because), linesOf(words, finding.ruledOut),
                     linesOf(words, finding.confirm), aheadOf(words, run, standing, finding.stage), answer.has_value(),
                     wasSaid(run, answer), finding.id == coldOil && standing.mode == run::Mode::Filtering});
    }
    return rows;
}

std::optional<run::QuestionAnswered> thatItIsSo(const run::Standing& standing, const run::Finding& finding)
{
    const auto& sets = standing.diagnosis.sets;
    const bool takes = !sets.empty() && std::ranges::any_of(sets.back().signs, [&](const run::Sign& sign) {
        return sign.pattern->id == finding.id && sign.pattern->takes != run::Takes::Nothing;
    });
    return takes ? std::optional(run::QuestionAnswered{std::string(finding.id), sets.back().moment->fact->header.id,
                                                       "yes", std::nullopt})
                 : std::nullopt;
}

} // namespace loopside::app
