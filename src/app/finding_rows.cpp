// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/finding_rows.h"

#include "app/as_shown.h"
#include "app/stage_ahead.h"
#include "app/wording.h"
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
    return outlook == nullptr ? QString() : asShown(words::outlookSentence(words, *outlook, run, standing));
}

bool wasSaid(const run::RunState& run, const std::optional<run::QuestionAnswered>& answer)
{
    return answer && std::ranges::any_of(run.facts, [&](const run::Fact& fact) {
               const auto* said = std::get_if<run::QuestionAnswered>(&fact.effective);
               return said != nullptr && !fact.struck && *said == *answer;
           });
}

} // namespace

QList<QByteArray> findingRoles()
{
    return {"level",   "text",  "act",     "hazard", "because",   "ruledOut",
            "confirm", "ahead", "canBeSo", "isSo",   "asksBypass"};
}

QList<RowModel::Row> findingRows(const words::Words& words, const run::RunState& run, const run::Standing& standing)
{
    QList<RowModel::Row> rows;
    for (std::size_t i = 0; i < std::min(findingsShown, standing.findings.size()); ++i) {
        const run::Finding& finding = standing.findings[i];
        const auto answer = thatItIsSo(standing, finding);
        rows.append({toQt(run::nameOf(finding.level)), asShown(words::findingSentence(words, finding)),
                     saidOf(words, finding.act), saidOf(words, finding.hazard), linesOf(words, finding.because),
                     linesOf(words, finding.ruledOut), linesOf(words, finding.confirm),
                     aheadOf(words, run, standing, finding.stage), answer.has_value(), wasSaid(run, answer),
                     finding.id == coldOil && standing.mode == run::Mode::Filtering});
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
