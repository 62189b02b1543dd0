// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/proof_json.h"

#include "ledger/learned_json.h"
#include "run/code_ahead.h"
#include "run/proof.h"

#include <nlohmann/json.hpp>

namespace loopside::story {

namespace {

using Json = nlohmann::ordered_json;

Json said(const std::vector<Message>& messages, const words::Words& words)
{
    Json list = Json::array();
    for (const Message& message : messages) {
        list.push_back(words.say(message));
    }
    return list;
}

Json codeOf(const run::Proof& proof, const std::optional<std::size_t>& sample)
{
    const bool isCounted = sample && proof.samples[*sample].code;
    return isCounted ? Json(proof.samples[*sample].code->toText()) : Json();
}

Json ratiosJson(const run::Proof& proof)
{
    Json list = Json::array();
    for (const run::SizeProof& size : proof.sizes) {
        list.push_back(size.ratio ? ledger::bandJson(*size.ratio) : Json());
    }
    return list;
}

std::string_view nameOf(filtration::CaptureJudged judged)
{
    switch (judged) {
    case filtration::CaptureJudged::Holds:
        return "holds";
    case filtration::CaptureJudged::Low:
        return "low";
    case filtration::CaptureJudged::NotProven:
        break;
    }
    return "not-proven";
}

Json capturesJson(const run::Proof& proof)
{
    Json list = Json::array();
    for (const run::StageCapture& capture : proof.captures) {
        Json object = {{"stage", capture.stage}, {"size", capture.size}};
        object.update(ledger::bandJson(capture.capture));
        object["judged"] = nameOf(capture.judged);
        list.push_back(std::move(object));
    }
    return list;
}

std::string_view nameOf(run::StepAnswer answer)
{
    switch (answer) {
    case run::StepAnswer::Yes:
        return "yes";
    case run::StepAnswer::No:
        return "no";
    case run::StepAnswer::CannotTell:
        break;
    }
    return "cannot-tell";
}

Json pathJson(const run::Proof& proof, const words::Words& words)
{
    Json steps = Json::object();
    for (const run::PathStep& step : proof.path) {
        steps[std::string(step.id)] = {{"answer", nameOf(step.answer)}, {"because", said(step.because, words)}};
    }
    return steps;
}

Json aheadJson(const Told& told, const words::Words& words)
{
    const auto ahead = run::codeAheadOf(told.run, told.standing);
    if (!ahead) {
        return {};
    }
    const auto text = [](const std::optional<oil::CleanlinessCode>& code) {
        return code ? Json(code->toText()) : Json();
    };
    const auto turnovers = [&](const std::optional<double>& number) { return number ? Json(*number) : Json(); };
    Json object = {
        {"code", text(ahead->nowMiddle)}, {"code_best", text(ahead->nowBest)}, {"code_worst", text(ahead->nowWorst)}};
    object["turnovers_to_target"] = ahead->toTarget ? Json{{"low", turnovers(ahead->toTarget->low)},
                                                           {"best", turnovers(ahead->toTarget->best)},
                                                           {"high", turnovers(ahead->toTarget->high)},
                                                           {"never", ahead->toTarget->neverShare}}
                                                    : Json();
    object["at_floor"] = ahead->isAtFloor();
    object["says"] = said(run::tellCodeAhead(*ahead, told.run), words);
    return object;
}

} // namespace

Json proofJson(const Told& told, const words::Words& words)
{
    const run::Proof proof = run::proofOf(told.run, told.standing);
    if (proof.samples.empty()) {
        return {};
    }
    Json object = {{"verdict", run::nameOf(proof.verdict)},
                   {"code_before", codeOf(proof, proof.before)},
                   {"code_after", codeOf(proof, proof.after)}};
    object["ratios"] = ratiosJson(proof);
    object["comparable"] = proof.comparability ? Json(proof.comparability->isComparable()) : Json();
    object["codes_expected"] = proof.codesDown ? Json(proof.codesDown->expected) : Json();
    object["codes_got"] = proof.codesDown
        ? Json{{"least", proof.codesDown->gotLeast}, {"most", proof.codesDown->gotMost}}
        : Json();
    object["captures"] = capturesJson(proof);
    object["water_taken_l"] = proof.water ? Json(proof.water->volume.in(units::litre)) : Json();
    object["water_of_capacity"] = proof.water ? Json(proof.water->ofCapacity) : Json();
    object["path"] = pathJson(proof, words);
    object["ahead"] = aheadJson(told, words);
    return object;
}

} // namespace loopside::story
