// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "report/record_parts.h"
#include "words/told.h"

#include <array>

namespace loopside::report {

namespace {

constexpr std::array<std::string_view, 3> sizeNames = {"≥ 4 µm(c)", "≥ 6 µm(c)", "≥ 14 µm(c)"};

std::string_view nameOf(oil::TargetVerdict verdict)
{
    constexpr std::array<std::string_view, 5> names = {"better", "met", "not-proven", "cannot-tell", "not-met"};
    return names.at(static_cast<std::size_t>(verdict));
}

std::string_view nameOf(oil::CodeChange change)
{
    constexpr std::array<std::string_view, 4> names = {"cleaner", "not-proven", "cannot-tell", "dirtier"};
    return names.at(static_cast<std::size_t>(change));
}

std::string_view nameOf(run::StepAnswer answer)
{
    constexpr std::array<std::string_view, 3> names = {"yes", "no", "cannot-tell"};
    return names.at(static_cast<std::size_t>(answer));
}

/// Sample, code and target, where there is such a sample.
std::vector<Message::Argument> valuesOf(const Look& look, const std::optional<std::size_t>& sample)
{
    std::vector<Message::Argument> values = {{"target", look.run.setup.target.code}};
    if (sample) {
        const run::SampleSeen& seen = look.proof.samples[*sample];
        values.emplace_back("sample", seen.drawn->id);
        values.emplace_back("code", seen.code ? seen.code->toText() : std::string("–"));
    }
    return values;
}

/// The bottle that the verdict is about: the one that is held against the target, else the last that was drawn of the
/// tank after the first one.
std::optional<std::size_t> verdictSample(const run::Proof& proof)
{
    if (proof.after) {
        return proof.after;
    }
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < proof.samples.size(); ++i) {
        if (proof.samples[i].isOfTank() && proof.before != i) {
            last = i;
        }
    }
    return last;
}

std::string percent(double share)
{
    return fixed(100.0 * share, 0) + " %";
}

std::string ratioText(const Look& look, const filtration::Band& ratio)
{
    constexpr int digits = 2;
    return look.say({"report.sizes.ratio-is",
                     {{"best", fixed(ratio.best, digits)},
                      {"low", fixed(ratio.low, digits)},
                      {"high", fixed(ratio.high, digits)}}});
}

/// "19 (S1)": the scale number of a bottle at one size, and which bottle it is.
std::string scaleText(const Look& look, const std::optional<std::size_t>& sample, std::size_t size)
{
    if (!sample || !look.proof.samples[*sample].code) {
        return "–";
    }
    const run::SampleSeen& seen = look.proof.samples[*sample];
    return seen.code->scales()[size].toText() + " (" + seen.drawn->id + ")";
}

std::string countsText(const run::SampleSeen& sample)
{
    if (!sample.result) {
        return {};
    }
    std::string text;
    for (const Decimal& count : sample.result->countsPerMl) {
        text += (text.empty() ? "" : " / ") + count.toText();
    }
    return text.empty() ? text : text + " /mL";
}

} // namespace

std::string placeText(const words::Words& words, const run::SampleDrawn& drawn)
{
    const std::string port = drawn.port == 0
        ? words.say("report.samples.tank")
        : words.say({"report.samples.port", {{"port", std::to_string(drawn.port)}}});
    return joined({port, drawn.point});
}

namespace {

std::string purgedText(const run::SampleDrawn& drawn)
{
    return joined({drawn.purged ? drawn.purged->toText() : std::string(),
                   drawn.purgedS ? std::to_string(*drawn.purgedS) + " s" : std::string()});
}

/// What else was told of the result, and what is wrong with the bottle.
std::string sampleMarks(const Look& look, const run::SampleSeen& sample)
{
    std::vector<std::string> marks;
    if (!sample.result) {
        marks.push_back(look.say("report.samples.awaited"));
    } else {
        marks.insert(marks.end(),
                     {sample.result->water, sample.result->viscosity, sample.result->acid, sample.result->method});
        marks.push_back(look.say({"report.samples.told", {{"at", timeText(sample.toldAt)}}}));
        marks.push_back(sample.result->report.empty()
                            ? std::string()
                            : look.say({"report.samples.report", {{"report", sample.result->report}}}));
    }
    if (!sample.fooledBy.empty()) {
        marks.push_back(look.say({"samples.fooled." + std::string(sample.fooledBy), {{"sample", sample.drawn->id}}}));
    }
    return joined(marks);
}

} // namespace

std::string verdictOf(const Look& look)
{
    return look.say(
        {"report.verdict." + std::string(run::nameOf(look.proof.verdict)), valuesOf(look, verdictSample(look.proof))});
}

Table resultTable(const Look& look)
{
    Table table = look.table("result", {"name", "value"});
    const auto add = [&](const std::string& id, const std::string& value) {
        if (!value.empty()) {
            table.rows.push_back({id, {look.say("report.result." + id), value}});
        }
    };
    const run::RunState& run = look.run;
    add("verdict", verdictOf(look));
    add("turnovers",
        words::turnoverLine(look.words, run.closed ? run.closed->turnovers : look.standing.credit.turnovers,
                            run.setup.target));
    std::string cuts;
    for (const std::string& line : words::creditLines(look.words, look.standing.credit)) {
        cuts += (cuts.empty() ? "" : " ") + line;
    }
    add("left-out", cuts);
    if (look.proof.comparability) {
        add("compared",
            joined({look.sayAll(look.proof.comparability->differs), look.sayAll(look.proof.comparability->untold)}));
    }
    if (look.proof.water) {
        add("water",
            look.say({"report.result.water-is",
                      {{"volume", fixed(look.proof.water->volume.in(units::litre), 2) + " L"},
                       {"share", percent(look.proof.water->ofCapacity)}}}));
    }
    return table;
}

Table sizesTable(const Look& look)
{
    Table table = look.table("sizes", {"size", "before", "after", "ratio", "change", "target"});
    const auto after = look.proof.held ? look.proof.held : look.proof.after;
    for (std::size_t i = 0; i < look.proof.sizes.size(); ++i) {
        const run::SizeProof& size = look.proof.sizes[i];
        if (!size.ratio && !size.target) {
            continue;
        }
        table.rows.push_back(
            {std::to_string(i),
             {std::string(sizeNames[i]), scaleText(look, look.proof.before, i), scaleText(look, after, i),
              size.ratio ? ratioText(look, *size.ratio) : std::string("–"),
              size.change ? look.say("report.change." + std::string(nameOf(*size.change))) : std::string("–"),
              size.target ? joined({scaleText(look, look.proof.after, i),
                                    look.say("report.target." + std::string(nameOf(*size.target)))})
                          : std::string("–")}});
    }
    return table;
}

Table pathTable(const Look& look)
{
    Table table = look.table("path", {"step", "because"});
    for (const run::PathStep& step : look.proof.path) {
        table.rows.push_back({std::string(step.id),
                              {look.say("path." + std::string(step.id) + "." + std::string(nameOf(step.answer))),
                               look.sayAll(step.because)}});
    }
    return table;
}

Table samplesTable(const Look& look)
{
    Table table = look.table("samples", {"bottle", "at", "place", "oil", "purged", "code", "counts", "marks"});
    for (const run::SampleSeen& sample : look.proof.samples) {
        table.rows.push_back(
            {toText(sample.fact->header.id),
             {sample.drawn->id, timeText(sample.at), placeText(look.words, *sample.drawn),
              sample.drawn->oil ? units::shown(*sample.drawn->oil, look.words.wanted()) : std::string(),
              purgedText(*sample.drawn), sample.code ? sample.code->toText() : std::string("–"), countsText(sample),
              sampleMarks(look, sample)}});
    }
    return table;
}

} // namespace loopside::report
