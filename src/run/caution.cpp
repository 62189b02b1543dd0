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
        {"clicking",
         {Couple, Read, Isolate, Transfer},
         Clicks,
         {"tell", "site"},
         "Static Discharge, tribology society magazine, September 2012"},
        {"leak-told",
         {Read, Isolate},
         Leaks,
         {"injection", "site"},
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"if-clicking",
         {Flush, Transfer},
         Always,
         {"tell", "site"},
         "Static Discharge, tribology society magazine, September 2012"},
        {"hot-oil",
         {HookUp, Couple, Read, Sample, Isolate, OpenHousing, Disconnect, Transfer},
         OilIsHot,
         {"site"},
         "common practice"},
        {"classified",
         {Area},
         Always,
         {"permit"},
         "Portable Device Safety in Hazardous Areas, Control magazine, 2004; UL RP 121203, scope"},
        {"hot-work", {AskPermit}, Always, {"permit"}, "common practice"},
        {"lone-work", {AskPermit}, Always, {"site"}, "common practice"},
        {"running-machine", {AskOwner}, Always, {"permit"}, "common practice"},
        {"walking", {Area}, Always, {"site"}, "common practice"},
        {"tip-over", {Area, MoveCart}, Always, {"site"}, "common practice"},
        {"shafts", {LookAround}, Always, {"site"}, "common practice"},
        {"power", {Power}, Always, {"electrician"}, "a university's electrical safety page on extension cords"},
        {"hose-places", {HookUp}, Always, {"site"}, "common practice"},
        {"hose-pressure",
         {HookUp, Couple, Start},
         Always,
         {"injection", "site"},
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"bonding", {HookUp, Couple}, Always, {"bonding"}, "DOE-HDBK-1015, static in liquid transfer"},
        {"leak",
         {Start, Flush, Isolate},
         Always,
         {"injection", "site"},
         "High-Pressure Hydraulic Injection Injuries, Incident Prevention magazine"},
        {"mist", {Start, Flush, Transfer}, Always, {"site"}, "common practice"},
        {"sample-port", {Sample}, Always, {"site"}, "common practice"},
        {"rest", {RestCheck}, HeadIsKnown, {"lock-out"}, "computed from the static head"},
        {"rest-unknown", {RestCheck}, HeadIsUnknown, {"lock-out"}, "common practice"},
        {"open-pressure", {OpenHousing}, Always, {"lock-out"}, "common practice"},
        {"open-oil", {OpenHousing}, Always, {"site"}, "common practice"},
        {"uncouple", {Disconnect}, Always, {"lock-out"}, "common practice"},
        {"spill", {Disconnect, CleanUp}, Always, {"spill"}, "40 CFR 279.22: stop, contain, clean up"},
        {"rags", {CleanUp}, Always, {"site"}, "common practice"},
        {"bulged", {PlanTransfer}, Always, {"tell", "site"}, "common practice"},
        {"wrong-container", {PlanTransfer}, Always, {"waste"}, "40 CFR 279.22: containers and their labels"},
        {"closed-drum", {Couple}, Always, {"site"}, "common practice"},
        {"overfill", {PlanTransfer, Transfer}, Always, {"waste"}, "common practice: 90 % of the room"},
        {"attended", {Start, Flush, Transfer}, Always, {"site"}, "common practice"},
        {"waste-label", {Transfer}, Always, {"waste"}, "40 CFR 279.22: containers and their labels"},
    };
    return table;
}

std::vector<Caution> cautionsAt(Act act, const Circumstances& circumstances)
{
    std::vector<Caution> told;
    for (const CautionRow& row : cautionTable()) {
        const bool isHere = std::ranges::find(row.acts, act) != row.acts.end();
        if (isHere && holds(row.when, circumstances)) {
            Caution& caution = told.emplace_back();
            caution.id = row.id;
            caution.says = {"caution." + std::string(row.id), valuesFor(row.when, circumstances)};
            for (const std::string_view rule : row.rules) {
                caution.rules.push_back({"caution.rule." + std::string(rule), {}});
            }
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
