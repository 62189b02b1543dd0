// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/handed.h"

#include "ledger/json_parts.h"
#include "run/run_code.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>
#include <string_view>

namespace loopside::ledger {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view handoverKey = "handover";
constexpr std::string_view adoptKey = "adopt";
constexpr std::string_view linkKey = "link";

/// What `read` makes of the details of `kept`, if it is of that kind and form.
template<class Read>
auto detailsOf(const run::Kept& kept, std::string_view what, Read read)
    -> std::optional<std::invoke_result_t<Read, JsonReader>>
{
    if (kept.what != what) {
        return std::nullopt;
    }
    auto details = readJson(kept.details, read);
    return details ? std::optional(*std::move(details)) : std::nullopt;
}

/// The code that was told with an adoption; empty: none.
std::optional<std::string> adopted(const run::Kept& kept)
{
    return detailsOf(kept, adoptKey, [](const JsonReader& details) {
        details.onlyKeys({"code"});
        return details.textOr("code");
    });
}

struct Answer
{
    Id other = {};
    bool isAccepted = false;
};

std::optional<Answer> answered(const run::Kept& kept)
{
    return detailsOf(kept, linkKey, [](const JsonReader& details) {
        details.onlyKeys({"run", "accepted"});
        return Answer{idOf(details.at("run")), details.at("accepted").boolean()};
    });
}

/// Gives the kept facts of `run` that were not struck to `take`, in the order of folding.
template<class Take>
void forKept(const run::RunState& run, Take take)
{
    for (const run::Fact& fact : run.facts) {
        if (const auto* kept = std::get_if<run::Kept>(&fact.effective); kept != nullptr && !fact.struck) {
            take(*kept, fact.header);
        }
    }
}

/// The person whom `kept`, a fact of that kind, names.
std::optional<Id> personNamed(const run::Kept& kept, std::string_view what)
{
    return detailsOf(kept, what, [](const JsonReader& details) {
        details.onlyKeys({"person"});
        return idOf(details.at("person"));
    });
}

/// Goes through the facts of a run and knows in whose hands it is.
class HandsSeen
{
public:
    explicit HandsSeen(const run::RunState& run) : run_{run}, hands_{run.opened.device, run.opened} {}

    void take(const run::Kept& kept, const run::Header& header)
    {
        const bool isHolder = header.device == hands_.device;
        if (const auto to = handedTo(kept); to && isHolder) {
            hands_.offered = Offer{*to, {}, header};
        } else if (const auto person = personNamed(kept, handoverKey); person && isHolder) {
            hands_.offered = Offer{{}, *person, header};
        } else if (const auto code = adopted(kept)) {
            adopt(*code, header);
        } else if (personNamed(kept, adoptKey) && isHolder && hands_.offered && hands_.offered->device.isNone()
                   && hands_.offered->person == header.person) {
            hands_ = {header.device, header, Hands::How::Taken};
        }
    }

    [[nodiscard]] Hands hands() && { return std::move(hands_); }

private:
    void adopt(const std::string& code, const run::Header& header)
    {
        const bool isByCode = run::codeFrom(code).value_or("") == run::codeOf(run_.id);
        const bool isAccepted = code.empty() && hands_.offered && !hands_.offered->device.isNone()
            && header.device == hands_.offered->device;
        if (isByCode || isAccepted) {
            hands_ = {header.device, header, isByCode ? Hands::How::ByCode : Hands::How::Accepted};
        }
    }

    const run::RunState& run_;
    Hands hands_;
};

run::RunPair ordered(const Id& one, const Id& other)
{
    return one < other ? run::RunPair{one, other} : run::RunPair{other, one};
}

} // namespace

run::Kept handoverTo(const Id& device)
{
    return {std::string(handoverKey), Json({{"to", toText(device)}}).dump()};
}

run::Kept adoption(const std::string& code)
{
    return {std::string(adoptKey), code.empty() ? "{}" : Json({{"code", code}}).dump()};
}

run::Kept linkAnswer(const Id& other, bool isAccepted)
{
    return {std::string(linkKey), Json({{"run", toText(other)}, {"accepted", isAccepted}}).dump()};
}

std::optional<Id> handedTo(const run::Kept& kept)
{
    return detailsOf(kept, handoverKey, [](const JsonReader& details) {
        details.onlyKeys({"to"});
        return idOf(details.at("to"));
    });
}

run::Kept handoverToPerson(const Id& person)
{
    return {std::string(handoverKey), Json({{"person", toText(person)}}).dump()};
}

run::Kept taking(const Id& from)
{
    return {std::string(adoptKey), Json({{"person", toText(from)}}).dump()};
}

std::vector<run::Said> takingOn(run::Mode now, run::Mode valve, run::Kept fact)
{
    std::vector<run::Said> said = {run::CheckAnswered{"handover-valve", std::string(run::nameOf(valve))}};
    if (now != valve) {
        said.emplace_back(run::ModeChanged{valve, std::nullopt});
    }
    said.emplace_back(std::move(fact));
    return said;
}

Hands handsOf(const run::RunState& run)
{
    HandsSeen seen(run);
    forKept(run, [&](const run::Kept& kept, const run::Header& header) { seen.take(kept, header); });
    return std::move(seen).hands();
}

Id holderOf(const run::RunState& run)
{
    return handsOf(run).device;
}

bool isTimedAt(const run::RunState& run, const Id& device)
{
    const Hands hands = handsOf(run);
    return hands.device == device
        || (hands.how == Hands::How::Opened
            && std::ranges::any_of(run.facts, [&](const run::Fact& fact) { return fact.header.device == device; }));
}

std::optional<HandedTold> handedTold(const run::Kept& kept)
{
    using What = HandedTold::What;
    if (const auto device = handedTo(kept)) {
        return HandedTold{What::ToTablet, *device};
    }
    if (const auto person = personNamed(kept, handoverKey)) {
        return HandedTold{What::ToPerson, *person};
    }
    if (const auto code = adopted(kept)) {
        return HandedTold{code->empty() ? What::Adopted : What::AdoptedByCode, {}};
    }
    if (const auto person = personNamed(kept, adoptKey)) {
        return HandedTold{What::Taken, *person};
    }
    const auto answer = answered(kept);
    return answer ? std::optional(HandedTold{answer->isAccepted ? What::OneWith : What::TwoWith, answer->other})
                  : std::nullopt;
}

std::set<run::RunPair> LinksSaid::all() const
{
    std::set<run::RunPair> both = accepted;
    both.insert(declined.begin(), declined.end());
    return both;
}

LinksSaid linksSaid(const run::State& state)
{
    struct Latest
    {
        run::Header header;
        bool isAccepted = false;
    };
    std::map<run::RunPair, Latest> latest;
    for (const auto& [id, run] : state.runs) {
        const Id& one = id;
        forKept(run, [&](const run::Kept& kept, const run::Header& header) {
            const auto answer = answered(kept);
            if (!answer || answer->other == one) {
                return;
            }
            const auto [known, isNew] = latest.try_emplace(ordered(one, answer->other));
            if (isNew || foldsBefore(known->second.header, header)) {
                known->second = {header, answer->isAccepted};
            }
        });
    }
    LinksSaid said;
    for (const auto& [pair, answer] : latest) {
        (answer.isAccepted ? said.accepted : said.declined).insert(pair);
    }
    return said;
}

std::set<Id> linkedWith(const run::State& state, const Id& run)
{
    const LinksSaid said = linksSaid(state);
    std::set<Id> linked = {run};
    for (std::size_t before = 0; before != linked.size();) {
        before = linked.size();
        for (const auto& [one, other] : said.accepted) {
            if (linked.contains(one) || linked.contains(other)) {
                linked.insert({one, other});
            }
        }
    }
    std::erase_if(linked, [&](const Id& id) { return id != run && !state.runs.contains(id); });
    return linked;
}

namespace {

/// A journal has thousands of runs that are over: they are passed by.
bool isAnyLinked(const run::State& state)
{
    bool isAny = false;
    for (const auto& [id, run] : state.runs) {
        if (!run.isPutAway) {
            forKept(run, [&](const run::Kept& kept, const run::Header&) { isAny |= answered(kept).has_value(); });
        }
    }
    return isAny;
}

} // namespace

std::map<Id, run::TurnoverBand> turnoversTogether(const run::State& state, std::int64_t nowMs)
{
    std::map<Id, run::TurnoverBand> together;
    if (!isAnyLinked(state)) {
        return together;
    }
    for (const auto& [id, run] : state.runs) {
        std::vector<const run::RunState*> all;
        if (run.phase != run::Phase::Closed) {
            std::ranges::transform(linkedWith(state, id), std::back_inserter(all),
                                   [&](const Id& one) { return state.runOf(one); });
        }
        if (all.size() > 1 && std::ranges::none_of(all, &run::RunState::isPutAway)) {
            together.emplace(id, run::linkedCredit(all, nowMs).turnovers);
        }
    }
    return together;
}

} // namespace loopside::ledger
