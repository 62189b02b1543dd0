// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/handed_told.h"

#include "run/run_code.h"
#include "words/outlook_told.h"

#include <utility>

namespace loopside::words {

namespace {

using What = ledger::HandedTold::What;

constexpr std::size_t idDigitsShown = 4;

const char* idOf(What what)
{
    switch (what) {
    case What::ToTablet:
        return "handed.to-tablet";
    case What::ToPerson:
        return "handed.to-person";
    case What::Adopted:
        return "handed.adopted";
    case What::AdoptedByCode:
        return "handed.by-code";
    case What::Taken:
        return "handed.taken";
    case What::OneWith:
        return "handed.one-with";
    case What::TwoWith:
        return "handed.two-with";
    }
    return "handed.adopted";
}

/// "run 7K3M9Q (Ines)".
std::string authorText(const Words& words, const run::State& state, const Id& run, const PersonName& nameOf)
{
    const run::RunState* known = state.runOf(run);
    const std::string name = known == nullptr ? std::string() : nameOf(known->opened.person);
    return words.say({"handed.author", {{"code", run::codeOf(run)}, {"person", name.empty() ? "–" : name}}});
}

} // namespace

std::string tabletText(const Words& words, const Id& device)
{
    return words.say({"handed.tablet", {{"tablet", toText(device).substr(0, idDigitsShown)}}});
}

std::string handedLine(const Words& words, const run::Kept& kept, const PersonName& nameOf)
{
    const auto told = ledger::handedTold(kept);
    if (!told) {
        return {};
    }
    const char* id = idOf(told->what);
    switch (told->what) {
    case What::ToTablet:
        return words.say({id, {{"tablet", tabletText(words, told->other)}}});
    case What::ToPerson:
    case What::Taken:
        return words.say({id, {{"person", nameOf(told->other)}}});
    case What::OneWith:
    case What::TwoWith:
        return words.say({id, {{"code", run::codeOf(told->other)}}});
    case What::Adopted:
    case What::AdoptedByCode:
        break;
    }
    return words.say(id);
}

std::string disagreementLine(const Words& words, const run::Disagreement& disagreement, const run::State& state,
                             const PersonName& nameOf, int offsetMin)
{
    const auto clock = [&](std::int64_t ms) {
        Stamp stamp;
        stamp.wallMs = ms;
        stamp.offsetMin = offsetMin;
        return clockText(stamp);
    };
    return words.say({disagreement.what == "mode" ? "handed.differ-mode" : "handed.differ-flow",
                      {{"from", clock(disagreement.fromMs)},
                       {"to", clock(disagreement.toMs)},
                       {"one", authorText(words, state, disagreement.one, nameOf)},
                       {"other", authorText(words, state, disagreement.other, nameOf)}}});
}

} // namespace loopside::words
