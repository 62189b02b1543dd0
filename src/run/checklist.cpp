// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/checklist.h"

#include "base/text.h"

#include <algorithm>

namespace loopside::run {

namespace {

using enum Checklist;

constexpr std::array<CheckPoint, 29> points = {{
    {"setup-vents", HookUp, {}},
    {"setup-traced", HookUp, {}},
    {"setup-bonded", HookUp, {}},
    {"setup-permit", BeforeStart, Act::AskPermit},
    {"setup-owner", BeforeStart, Act::AskOwner},
    {"setup-area", BeforeStart, Act::Area},
    {"setup-right-tank", BeforeStart, {}},
    {"setup-look", BeforeStart, Act::LookAround},
    {"setup-level", BeforeStart, {}},
    {"setup-breather", BeforeStart, {}},
    {"setup-power", BeforeStart, Act::Power},
    {"setup-spill-kit", BeforeStart, Act::Start},
    {"housing-old-gaskets", Housing, {}},
    {"housing-seals", Housing, {}},
    {"housing-looked", Housing, {}},
    {"housing-bagged", Housing, Act::CleanUp},
    {"housing-closed", Housing, Act::Start},
    {"close-out-no-pressure", Restore, Act::Disconnect},
    {"close-out-valves", Restore, {}},
    {"close-out-caps", Restore, {}},
    {"close-out-breather", Restore, {}},
    {"close-out-level", Restore, {}},
    {"close-out-spill", Restore, Act::CleanUp},
    {"close-out-cart-clean", Restore, Act::MoveCart},
    {"close-out-owner", Restore, {}},
    {"transfer-known-oil", Transfer, {}},
    {"transfer-container", Transfer, Act::PlanTransfer},
    {"transfer-vented", Transfer, Act::Couple},
    {"transfer-watched", Transfer, Act::Transfer},
}};

constexpr std::array<std::string_view, 3> answerNames = {"done", "does-not-apply", "skipped"};

} // namespace

std::string_view nameOf(Answer answer)
{
    return answerNames.at(static_cast<std::size_t>(answer));
}

std::optional<Answer> answerNamed(std::string_view say)
{
    const auto found = std::ranges::find(answerNames, say);
    if (found != answerNames.end()) {
        return static_cast<Answer>(found - answerNames.begin());
    }
    return say == "yes" ? std::optional(Answer::Done) : std::nullopt;
}

std::vector<CheckPoint> pointsOf(Checklist list)
{
    std::vector<CheckPoint> found;
    std::ranges::copy_if(points, std::back_inserter(found),
                         [&](const CheckPoint& point) { return point.list == list; });
    return found;
}

const CheckPoint* pointNamed(std::string_view id)
{
    const auto found = std::ranges::find(points, id, &CheckPoint::id);
    return found == points.end() ? nullptr : &*found;
}

std::vector<std::optional<PointAnswered>> answersIn(const RunState& run, Checklist list)
{
    const std::vector<CheckPoint> asked = pointsOf(list);
    std::vector<std::optional<PointAnswered>> found(asked.size());
    for (const Fact& fact : run.facts) {
        if (list == Housing && !fact.struck && std::holds_alternative<ElementsChanged>(fact.effective)) {
            std::ranges::fill(found, std::nullopt); // another housing was opened
        }
        const auto* answered = std::get_if<CheckAnswered>(&fact.effective);
        const auto point = answered == nullptr || fact.struck
            ? asked.end()
            : std::ranges::find(asked, answered->check, &CheckPoint::id);
        const auto answer = point == asked.end() ? std::nullopt : answerNamed(answered->say);
        if (answer) {
            found[static_cast<std::size_t>(point - asked.begin())] = PointAnswered{
                *answer, answered->why, answered->wasAsked, fact.header.id, fact.header.person, fact.seen};
        }
    }
    return found;
}

std::optional<Error> faultIn(const CheckAnswered& answered)
{
    const CheckPoint* point = pointNamed(answered.check);
    const auto answer = answerNamed(answered.say);
    if (point == nullptr) {
        return std::nullopt;
    }
    if (!answer) {
        return Error{Errc::Malformed,
                     "\"" + quotable(answered.say) + "\" is no answer to the point " + answered.check
                         + "; known are done, does-not-apply, skipped",
                     {"refused.check-say", {}}};
    }
    if (*answer == Answer::Skipped && trimmed(answered.why).empty()) {
        return Error{Errc::Malformed,
                     "the point " + answered.check + " is left out only with a reason",
                     {"refused.check-why", {}}};
    }
    return std::nullopt;
}

} // namespace loopside::run
