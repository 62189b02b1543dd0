// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/learned_json.h"

#include <nlohmann/json.hpp>

namespace loopside::ledger {

namespace {

bool readFlag(const JsonReader& object, std::string_view name)
{
    return object.ifThere(name, [](const JsonReader& flag) { return flag.boolean(); }).value_or(false);
}

} // namespace

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

} // namespace loopside::ledger
