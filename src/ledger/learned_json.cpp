// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/learned_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::ledger {

namespace {

bool readFlag(const JsonReader& object, std::string_view name)
{
    return object.ifThere(name, [](const JsonReader& flag) { return flag.boolean(); }).value_or(false);
}

using Json = nlohmann::ordered_json;

filtration::Band readBand(const JsonReader& object)
{
    const filtration::Band band{object.at("low").real(), object.at("best").real(), object.at("high").real()};
    if (!(band.low > 0.0 && band.low <= band.best && band.best <= band.high)) {
        object.refuse("low, best and high are above 0 and rise");
    }
    return band;
}

int readBehind(const JsonReader& object, std::string_view name)
{
    constexpr int most = 1'000'000;
    return object.at(name).integer(1, most);
}

} // namespace

Json bandJson(const filtration::Band& band)
{
    return {{"low", band.low}, {"best", band.best}, {"high", band.high}};
}

nlohmann::ordered_json learnedJson(const run::LoadingLearned& learned)
{
    nlohmann::ordered_json body = {{"stage", learned.stage},
                                   {"number", learned.number},
                                   {"tank", learned.tank},
                                   {"element_type", learned.elementType},
                                   {"kind", learned.kind},
                                   {"limit_pa", learned.limit_pa},
                                   {"end_l", learned.end_l},
                                   {"reading_error_pa", learned.readingError_pa},
                                   {"cut_short", learned.isCutShort},
                                   {"used", learned.isUsed},
                                   {"withdrawn", learned.isWithdrawn},
                                   {"load_l", nlohmann::ordered_json::array()},
                                   {"dp_pa", nlohmann::ordered_json::array()}};
    for (const auto& [load, drop] : learned.curve) {
        body["load_l"].push_back(load);
        body["dp_pa"].push_back(drop);
    }
    return body;
}

run::LoadingLearned readLearned(const JsonReader& body)
{
    run::LoadingLearned learned;
    learned.stage = body.at("stage").integer(1, 99);
    learned.number = body.at("number").integer(1, 9999);
    learned.tank = body.at("tank").text();
    learned.elementType = body.textOr("element_type");
    learned.kind = body.textOr("kind");
    learned.limit_pa = body.at("limit_pa").real();
    learned.end_l = body.at("end_l").real();
    learned.readingError_pa = body.at("reading_error_pa").real();
    learned.isCutShort = readFlag(body, "cut_short");
    learned.isUsed = readFlag(body, "used");
    learned.isWithdrawn = readFlag(body, "withdrawn");
    const auto loads = body.at("load_l").items();
    const auto drops = body.at("dp_pa").items();
    if (loads.size() != drops.size()) {
        body.refuse("a curve has as many loads as drops");
    }
    for (std::size_t i = 0; i < loads.size(); ++i) {
        learned.curve.push_back({loads[i].real(), drops[i].real()});
    }
    return learned;
}

nlohmann::ordered_json placeJson(const run::PlaceLearned& place)
{
    Json body = Json::object();
    if (place.mixing) {
        body["mixing"] = bandJson(place.mixing->captureTimesMixing);
        body["mixing"]["told"] = place.mixing->told;
        body["mixing"]["runs"] = place.mixing->runs;
    }
    if (std::any_of(place.ingress.begin(), place.ingress.end(), [](const auto& size) { return size.has_value(); })) {
        body["ingress_per_ml_day"] = Json::array();
        for (const auto& size : place.ingress) {
            Json one = size ? bandJson(size->perMlADay) : Json();
            if (size) {
                one["gaps"] = size->gaps;
            }
            body["ingress_per_ml_day"].push_back(std::move(one));
        }
    }
    for (const run::CleanLearned& clean : place.clean) {
        Json one = clean.drop_pa ? bandJson(*clean.drop_pa) : Json();
        if (clean.drop_pa) {
            one["sets"] = clean.runs;
        }
        body["clean_dp_pa"].push_back(std::move(one));
    }
    return body;
}

run::PlaceLearned readPlace(const JsonReader& body)
{
    run::PlaceLearned place;
    if (const auto mixing = body.find("mixing")) {
        place.mixing = run::MixingLearned{readBand(*mixing), mixing->at("told").real(), readBehind(*mixing, "runs")};
    }
    if (const auto sizes = body.find("ingress_per_ml_day")) {
        const auto items = sizes->items();
        if (items.size() != place.ingress.size()) {
            sizes->refuse("ingress is told for three sizes");
        }
        for (std::size_t i = 0; i < items.size(); ++i) {
            if (!items[i].isNull()) {
                place.ingress[i] = run::IngressLearned{readBand(items[i]), readBehind(items[i], "gaps")};
            }
        }
    }
    if (const auto stages = body.find("clean_dp_pa")) {
        for (const JsonReader& stage : stages->items()) {
            place.clean.push_back(stage.isNull() ? run::CleanLearned{}
                                                 : run::CleanLearned{readBand(stage), readBehind(stage, "sets")});
        }
    }
    return place;
}

} // namespace loopside::ledger
