// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/caution.h"

#include "base/text.h"
#include "run/standing.h"

#include <algorithm>

namespace loopside::run {

namespace {

bool holds(When when, const Circumstances& known)
{
    switch (when) {
    case When::Always:
        return true;
    case When::OilIsHot:
        return known.oil && known.oil->value() > hotOil;
    case When::Clicks:
        return known.clicks;
    case When::Leaks:
        return known.leaks;
    case When::HeadIsKnown:
        return known.staticHead.has_value();
    case When::HeadIsUnknown:
        return !known.staticHead;
    }
    return false;
}

std::vector<Message::Argument> valuesFor(When when, const Circumstances& known)
{
    if (when == When::OilIsHot) {
        return {{"oil", known.oil->toText()}, {"hot", fixed(hotOil.in(units::celsius), 0) + " °C"}};
    }
    if (when == When::HeadIsKnown) {
        return {{"head", known.staticHead->toText()}};
    }
    return {};
}

} // namespace

std::span<const CautionRow> cautionTable()
{
    using enum Act;
    using enum When;
    static const std::vector<CautionRow> table = {
        {"clicking", {Read, Isolate}, Clicks, "tell", "Static Discharge, tribology society magazine, September 2012"},
        {"leak-told",
         {Read, Isolate},
         Leaks,
         "injection",
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"hot-oil",
         {HookUp, Read, Sample, Isolate, OpenHousing, Disconnect, Transfer},
         OilIsHot,
         "site",
         "common practice"},
        {"classified",
         {Area},
         Always,
         "permit",
         "Portable Device Safety in Hazardous Areas, Control magazine, 2004; UL RP 121203, scope"},
        {"running-machine", {Area}, Always, "permit", "common practice"},
        {"power", {Power}, Always, "electrician", "a university's electrical safety page on extension cords"},
        {"hose-places", {HookUp}, Always, "site", "common practice"},
        {"hose-pressure",
         {HookUp, Start},
         Always,
         "injection",
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"bonding", {HookUp, PlanTransfer}, Always, "bonding", "DOE-HDBK-1015, static in liquid transfer"},
        {"leak",
         {Start, Isolate},
         Always,
         "injection",
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"sample-port", {Sample}, Always, "site", "common practice"},
        {"rest", {RestCheck}, HeadIsKnown, "lock-out", "computed from the static head"},
        {"rest-unknown", {RestCheck}, HeadIsUnknown, "lock-out", "common practice"},
        {"open-pressure", {OpenHousing}, Always, "lock-out", "common practice"},
        {"open-oil", {OpenHousing}, Always, "site", "common practice"},
        {"uncouple", {Disconnect}, Always, "lock-out", "common practice"},
        {"spill", {Disconnect}, Always, "spill", "40 CFR 279.22: stop, contain, clean up"},
        {"wrong-container", {PlanTransfer}, Always, "waste", "40 CFR 279.22: containers and their labels"},
        {"overfill", {PlanTransfer, Transfer}, Always, "waste", "common practice: 90 % of the room"},
        {"attended", {Transfer}, Always, "site", "common practice"},
        {"waste-label", {Transfer}, Always, "waste", "40 CFR 279.22: containers and their labels"},
    };
    return table;
}

std::vector<Caution> cautionsAt(Act act, const Circumstances& circumstances)
{
    std::vector<Caution> told;
    for (const CautionRow& row : cautionTable()) {
        const bool isHere = std::ranges::find(row.acts, act) != row.acts.end();
        if (isHere && holds(row.when, circumstances)) {
            told.push_back({row.id,
                            {"caution." + std::string(row.id), valuesFor(row.when, circumstances)},
                            {"caution.rule." + std::string(row.rule), {}}});
        }
    }
    return told;
}

Circumstances circumstancesOf(const RunState& run, const Standing& standing)
{
    Circumstances known;
    known.staticHead = run.setup.cart.staticHead;
    if (standing.lastReading != nullptr) {
        known.oil = standing.lastReading->reading->oil;
    }
    for (const Fact& fact : run.facts) {
        const auto* changed = std::get_if<ModeChanged>(&fact.effective);
        if (changed != nullptr && changed->mode == Mode::Stopped && !fact.struck) {
            known.clicks = false;
            known.leaks = false;
        }
        const auto* seen = std::get_if<SignsSeen>(&fact.effective);
        for (std::size_t i = 0; seen != nullptr && !fact.struck && i < seen->signs.size(); ++i) {
            known.clicks = known.clicks || seen->signs[i] == "clicking";
            known.leaks = known.leaks || seen->signs[i] == "leak";
        }
    }
    return known;
}

} // namespace loopside::run
