// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/entry_text.h"

#include "ledger/tank_look.h"
#include "words/fact_told.h"
#include "words/handed_told.h"
#include "words/look_told.h"
#include "words/record_told.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::report {

namespace {

class EntryLine
{
public:
    EntryLine(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
        : words_{words}, run_{run}, nameOf_{nameOf}
    {
    }

    std::string operator()(const run::CheckAnswered& check) const { return words::checkLine(words_, check); }

    std::string operator()(const run::ResultEntered& result) const
    {
        std::vector<std::string> parts = {result.sample};
        if (!result.code.empty()) {
            parts.push_back(words_.say({"app.history.code", {{"code", result.code}}}));
        }
        std::string counts;
        for (const Decimal& count : result.countsPerMl) {
            counts += (counts.empty() ? "" : " / ") + count.toText();
        }
        parts.push_back(counts.empty() ? counts : counts + " /mL");
        parts.insert(parts.end(), {result.water, result.viscosity, result.acid});
        return joined(parts);
    }

    std::string operator()(const run::QuestionAnswered& answer) const
    {
        const std::string id = "page.entry.says." + answer.say;
        return words_.say({"page.entry.answer", {{"say", words_.has(id) ? words_.say(id) : answer.say}}});
    }

    std::string operator()(const run::Amended& amended) const
    {
        return words_.say({"page.entry.amended", {{"why", amended.why}}});
    }

    std::string operator()(const run::AlertRaised& raised) const
    {
        return words::alertSentence(words_, raised.alert, raised.told);
    }

    std::string operator()(const run::AlertAcknowledged& acknowledged) const
    {
        return joined({words_.say("alert-state.acknowledged"), acknowledged.why});
    }

    std::string operator()(const run::AlertShelved& shelved) const
    {
        return joined({words_.say("alert-state.shelved"), shelved.why});
    }

    std::string operator()(const run::AlertServiced& serviced) const
    {
        return joined({words_.say(serviced.isInService ? "report.entry.in-service" : "alert-state.out-of-service"),
                       serviced.why});
    }

    std::string operator()(const run::AttachmentWithdrawn& withdrawn) const
    {
        return words_.say({"report.entry.withdrawn", {{"why", withdrawn.why}}});
    }

    std::string operator()(const run::StartTold& start) const
    {
        const std::string verdict = start.verdict.empty() ? std::string() : words_.say("plan.verdict." + start.verdict);
        const std::string told = verdict.empty() ? verdict : words_.say({"report.entry.start", {{"verdict", verdict}}});
        return start.isOverride()
            ? joined({told, words_.say({"report.entry.against", {{"person", personOf(start.by)}, {"why", start.why}}})})
            : told;
    }

    std::string operator()(const run::WasteTransferred& waste) const
    {
        return words_.say({"app.history.waste", {{"volume", waste.volume.toText()}}});
    }

    std::string operator()(const run::Kept& kept) const
    {
        const auto look = ledger::lookIn(kept);
        return look ? words::lookLine(words_, *look) : words::handedLine(words_, kept, nameOf_);
    }

    std::string operator()(const run::RunOpened&) const { return words_.say("report.entry.opened"); }

    std::string operator()(const run::RunClosed& closed) const
    {
        return joined({words::closingLine(words_, closed), closed.why});
    }

    std::string operator()(const run::RunMoved& moved) const
    {
        return joined({words_.say({"app.logged.run-of", {{"tank", moved.tank.name}}}), moved.why});
    }

    template<class Other>
    std::string operator()(const Other& other) const
    {
        return words::factLine(words_, other, run_.setup.cart);
    }

private:
    /// Ids stand for people; entries of old have names.
    [[nodiscard]] std::string personOf(const std::string& text) const
    {
        const auto id = idFromText(text);
        return id ? nameOf_(*id) : text;
    }

    const words::Words& words_;
    const run::RunState& run_;
    const NameOf& nameOf_;
};

} // namespace

std::string entryText(const words::Words& words, const run::RunState& run, const run::Event& event,
                      const NameOf& nameOf)
{
    return std::visit(EntryLine{words, run, nameOf}, event);
}

std::vector<const run::Fact*> factsBySeen(const run::RunState& run)
{
    std::vector<const run::Fact*> facts;
    for (const run::Fact& fact : run.facts) {
        facts.push_back(&fact);
    }
    std::ranges::stable_sort(facts, {}, [](const run::Fact* fact) { return fact->seen; });
    return facts;
}

std::string joined(const std::vector<std::string>& parts)
{
    std::string text;
    for (const std::string& part : parts) {
        text += part.empty() || text.empty() ? part : " · " + part;
    }
    return text;
}

} // namespace loopside::report
