// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/labels.h"

#include "report/record_parts.h"
#include "run/proof.h"
#include "run/run_code.h"
#include "run/standing.h"
#include "run/stock.h"
#include "units/wanted.h"
#include "words/oil_told.h"

namespace loopside::report {

namespace {

constexpr const char* toFillIn = "__________";

std::string runLine(const words::Words& words, const Id& id)
{
    return words.say({"label.run", {{"code", run::codeOf(id)}}});
}

std::string orToFillIn(const std::string& text)
{
    return text.empty() ? toFillIn : text;
}

Label bottleLabel(const words::Words& words, const run::RunState& run, const run::SampleSeen& sample,
                  const NameOf& nameOf)
{
    const run::Header& header = sample.fact->header;
    return {words.say("label.bottle"),
            sample.drawn->id,
            {words.say({"label.from", {{"tank", run.setup.tank.name}}}),
             words::oilText(words, run::fluidText(run.setup.tank.fluid)),
             joined({placeText(words, *sample.drawn),
                     sample.drawn->oil ? units::shown(*sample.drawn->oil, words.wanted()) : std::string()}),
             words.say({"label.drawn",
                        {{"time", dayText(header.entered, header.observed.agoMs)}, {"person", nameOf(header.person)}}}),
             runLine(words, run.id)},
            sample.drawn->id,
            run.setup.isPractice};
}

/// Of each element that went out in one change of a stage.
void addElements(const words::Words& words, const run::RunState& run, const run::Fact& fact,
                 const run::ElementsChanged& changed, const std::string& type, const NameOf& nameOf,
                 std::vector<Label>& labels)
{
    const std::string stage = std::to_string(changed.stage);
    for (int element = 1; element <= changed.elements; ++element) {
        const std::string place = std::to_string(element);
        labels.push_back(
            {words.say("label.element"),
             joined({words.say({"app.stage", {{"stage", stage}}}), type}),
             {words.say({"label.element-of", {{"element", place}, {"elements", std::to_string(changed.elements)}}}),
              words.say({"label.cart", {{"cart", run.setup.cart.name}, {"stage", stage}}}),
              joined({words.say({"label.from", {{"tank", run.setup.tank.name}}}),
                      words::oilText(words, run::fluidText(run.setup.tank.fluid))}),
              words.say({"label.taken-out",
                         {{"time", dayText(fact.header.entered, fact.header.observed.agoMs)},
                          {"person", nameOf(fact.header.person)}}}),
              runLine(words, run.id)},
             run::codeOf(run.id) + "-S" + stage + "-" + place,
             run.setup.isPractice});
    }
}

std::vector<Label> elementLabels(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    std::vector<std::string> types;
    for (const run::StageRecord& stage : run.setup.stages) {
        types.push_back(stage.type);
    }
    std::vector<Label> labels;
    for (const run::Fact* fact : factsBySeen(run)) {
        const auto* changed = fact->struck ? nullptr : std::get_if<run::ElementsChanged>(&fact->effective);
        if (changed == nullptr || changed->stage < 1 || static_cast<std::size_t>(changed->stage) > types.size()) {
            continue;
        }
        std::string& type = types[static_cast<std::size_t>(changed->stage) - 1];
        addElements(words, run, *fact, *changed, type, nameOf, labels);
        type = changed->type.empty() ? type : changed->type;
    }
    return labels;
}

/// Of the container for the oil that housings held when elements were last taken out; its volume nobody tells.
std::vector<Label> drainedLabels(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    const run::Fact* last = nullptr;
    for (const run::Fact* fact : factsBySeen(run)) {
        const bool isChange = !fact->struck && std::holds_alternative<run::ElementsChanged>(fact->effective);
        last = isChange ? fact : last;
    }
    if (last == nullptr) {
        return {};
    }
    return {{words.say("label.oil-container"),
             words.say("label.oil"),
             {words.say({"label.from", {{"tank", run.setup.tank.name}}}),
              words::oilText(words, orToFillIn(run::fluidText(run.setup.tank.fluid))),
              words.say({"label.volume", {{"volume", toFillIn}}}),
              words.say({"label.container", {{"container", toFillIn}}}),
              words.say({"label.filled",
                         {{"time", dayText(last->header.entered, last->header.observed.agoMs)},
                          {"person", nameOf(last->header.person)}}}),
              runLine(words, run.id)},
             run::codeOf(run.id) + "-OIL",
             run.setup.isPractice}};
}

/// The volume that was told last of what `job` moved; empty if none was.
std::string movedText(const run::Job& job)
{
    std::string moved;
    for (const run::JobFact& fact : job.facts) {
        const auto* stopped = std::get_if<run::TransferStopped>(&fact.said);
        if (stopped != nullptr && stopped->moved) {
            moved = stopped->moved->toText();
        }
    }
    return moved;
}

} // namespace

std::vector<Label> labelsOf(const words::Words& words, const run::RunState& run, const NameOf& nameOf)
{
    const run::Proof proof = run::proofOf(run, run::standingOf(run, lastOf(run)));
    std::vector<Label> labels;
    for (const run::SampleSeen& sample : proof.samples) {
        labels.push_back(bottleLabel(words, run, sample, nameOf));
    }
    const std::vector<Label> elements = elementLabels(words, run, nameOf);
    labels.insert(labels.end(), elements.begin(), elements.end());
    const std::vector<Label> drained = drainedLabels(words, run, nameOf);
    labels.insert(labels.end(), drained.begin(), drained.end());
    return labels;
}

std::vector<Label> labelsOf(const words::Words& words, const run::Job& job, const NameOf& nameOf)
{
    const run::TransferOpened* transfer = job.transfer();
    if (transfer == nullptr) {
        return {};
    }
    return {{transfer->stream,
             words.say("label.oil"),
             {words.say({"label.from", {{"tank", orToFillIn(transfer->tank)}}}),
              words::oilText(words, orToFillIn(transfer->fluid)),
              words.say({"label.volume", {{"volume", orToFillIn(movedText(job))}}}),
              words.say({"label.container", {{"container", orToFillIn(transfer->container)}}}),
              words.say({"label.filled",
                         {{"time", dayText(job.opened.entered, job.opened.observed.agoMs)},
                          {"person", nameOf(job.opened.person)}}})},
             run::codeOf(job.id) + "-OIL",
             false}};
}

} // namespace loopside::report
