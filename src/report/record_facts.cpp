// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"
#include "report/record_parts.h"
#include "run/alert_log.h"
#include "run/notes.h"
#include "run/stock.h"
#include "words/fact_told.h"
#include "words/record_told.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::report {

std::string fileMark(const words::Words& words, const run::Attachment& attachment)
{
    constexpr std::size_t shownDigits = 16;
    return words.say({"report.mark.file", {{"name", attachment.added.hash.substr(0, shownDigits)}}});
}

namespace {

using run::Fact;

void append(std::vector<std::string>& cells, const std::vector<std::string>& more)
{
    cells.insert(cells.end(), more.begin(), more.end());
}

/// That it was read earlier than it was entered, and how that is known.
std::string lateMark(const Look& look, const Fact& fact)
{
    if (fact.seen == fact.entered) {
        return {};
    }
    const std::string how = "report.mark.seen-" + fact.header.observed.how;
    return look.say({look.words.has(how) ? how : "report.mark.seen-said", {{"at", timeText(fact.entered)}}});
}

/// Who put it right last, and what it said at first.
std::string changedMark(const Look& look, const Fact& fact)
{
    const Fact* amendment = fact.amendedBy.empty() ? nullptr : look.run.factOf(fact.amendedBy.back());
    const std::string by = amendment == nullptr ? std::string("–") : look.nameOf(amendment->header.person);
    const auto* what = amendment == nullptr ? nullptr : std::get_if<run::Amended>(&amendment->original);
    const std::string why = what == nullptr ? std::string() : what->why;
    return look.say(
        {fact.struck ? "report.mark.struck" : "report.mark.changed",
         {{"person", by}, {"why", why}, {"what", entryText(look.words, look.run, fact.original, look.nameOf)}}});
}

/// What was noted of `fact` and attached to it.
std::vector<std::string> notedMarks(const Look& look, const Fact& fact)
{
    std::vector<std::string> marks;
    for (const run::Note& note : run::notesOf(look.run)) {
        if (note.of == fact.header.id) {
            marks.push_back(look.say({"note.of-run", {{"text", note.text}}}));
        }
    }
    for (const run::Attachment& attachment : run::attachmentsOf(look.run)) {
        if (attachment.added.of == fact.header.id) {
            marks.push_back(words::attachmentLine(look.words, attachment));
            marks.push_back(attachment.withdrawn ? std::string() : fileMark(look.words, attachment));
        }
    }
    return marks;
}

/// Which entry a note or an attachment is about, and what became of the attachment.
std::string aboutMark(const Look& look, const Fact& fact)
{
    const auto* note = std::get_if<run::Noted>(&fact.effective);
    const auto* added = std::get_if<run::AttachmentAdded>(&fact.effective);
    const Fact* about = note != nullptr ? look.run.factOf(note->of)
        : added != nullptr              ? look.run.factOf(added->of)
                                        : nullptr;
    std::vector<std::string> marks;
    if (about != nullptr) {
        marks.push_back(look.say({"report.mark.about", {{"at", timeText(about->seen)}}}));
    }
    for (const run::Attachment& attachment : run::attachmentsOf(look.run)) {
        if (attachment.entry == fact.header.id) {
            marks.push_back(attachment.withdrawn ? words::attachmentLine(look.words, attachment)
                                                 : fileMark(look.words, attachment));
        }
    }
    return joined(marks);
}

/// An answer that says what nobody saw.
bool isStated(const Fact& fact)
{
    const auto* answer = std::get_if<run::QuestionAnswered>(&fact.effective);
    return answer != nullptr && answer->question == run::unwatchedGap && answer->say != "no";
}

std::string marksOf(const Look& look, const Fact& fact)
{
    std::vector<std::string> marks = {lateMark(look, fact)};
    if (run::isEnteredLate(fact, look.standing.questions)) {
        marks.push_back(look.say("report.mark.entered-late"));
    }
    if (!fact.struck && run::isHeldBack(fact, look.standing.questions)) {
        marks.push_back(look.say("report.mark.doubt"));
    }
    marks.push_back(aboutMark(look, fact));
    append(marks, notedMarks(look, fact));
    if (isStated(fact)) {
        marks.push_back(look.say("report.mark.stated"));
    }
    if (fact.struck || !fact.amendedBy.empty()) {
        marks.push_back(changedMark(look, fact));
    }
    return joined(marks);
}

/// ΔP and loading of each stage as `fact` shows them.
std::vector<std::string> dropCells(const Look& look, const Fact& fact)
{
    std::vector<std::string> cells(look.run.setup.stages.size(), "–");
    const auto moment = std::ranges::find_if(
        look.standing.moments, [&](const run::Moment& one) { return one.fact == &fact && one.reading != nullptr; });
    if (moment == look.standing.moments.end()) {
        return cells;
    }
    const auto drops = run::dropsAt(*moment, look.run);
    for (std::size_t i = 0; i < std::min(cells.size(), drops.size()); ++i) {
        const std::string raw = drops[i].raw ? units::shown(drops[i].raw->toText(), look.words.wanted()) : "–";
        const std::string loading = drops[i].loading ? fixed(*drops[i].loading, 1) + "×" : std::string();
        cells[i] = joined({raw, loading});
    }
    return cells;
}

/// "38 psi"; the line of a gauge without its name in front.
std::vector<std::string> gaugeCells(const run::ReadingLogged& reading, const run::CartRecord& cart)
{
    std::vector<std::string> cells = words::gaugeTexts(reading, cart);
    for (std::string& cell : cells) {
        cell = cell.substr(cell.find(' ') + 1);
    }
    cells.resize(cart.gauges.size(), "–");
    return cells;
}

Row readingRow(const Look& look, const Fact& fact, const run::ReadingLogged& reading)
{
    const auto& wanted = look.words.wanted();
    Row row{toText(fact.header.id), {timeText(fact.seen), dayText(fact.header.entered, fact.header.observed.agoMs)}};
    append(row.cells, gaugeCells(reading, look.run.setup.cart));
    append(row.cells,
           {reading.oil ? units::shown(*reading.oil, wanted) : std::string(),
            reading.flow ? units::shown(*reading.flow, wanted) : std::string()});
    append(row.cells, dropCells(look, fact));
    append(row.cells, {look.nameOf(fact.header.person), marksOf(look, fact)});
    return row;
}

/// Alerts and readings have tables of their own.
bool isEvent(const run::Event& event)
{
    return !std::holds_alternative<run::ReadingLogged>(event) && !std::holds_alternative<run::AlertRaised>(event)
        && !std::holds_alternative<run::AlertAcknowledged>(event) && !std::holds_alternative<run::AlertCleared>(event);
}

std::string lastDropText(const Look& look, std::size_t stage)
{
    return stage < look.standing.stages.size()
        ? words::stageLine(look.words, look.standing.stages[stage], look.run.setup.stages[stage],
                           static_cast<int>(stage) + 1)
        : look.say("report.stages.unread");
}

/// When the elements of a stage were changed, and how many then; empty if never.
std::string changesText(const Look& look, int stage)
{
    std::vector<std::string> parts;
    for (const Fact* fact : factsBySeen(look.run)) {
        const auto* changed = std::get_if<run::ElementsChanged>(&fact->effective);
        if (changed != nullptr && !fact->struck && changed->stage == stage) {
            parts.push_back(timeText(fact->seen) + " " + words::elementsText(look.words, changed->elements));
        }
    }
    return parts.empty() ? look.say("report.stages.unchanged") : joined(parts);
}

std::string atStartText(const Look& look, const run::StageRecord& stage)
{
    return stage.loaded ? look.say({"report.stages.loaded", {{"times", stage.loaded->toText()}}})
                        : look.say("report.stages.new");
}

std::string becameOf(const Look& look, const run::AlertLine& line)
{
    return line.returned ? look.say({"app.log.over", {{"time", timeText(*line.returned)}}})
                         : look.say(line.isReplaced ? "app.log.replaced" : "app.log.stands");
}

} // namespace

Table stagesTable(const Look& look)
{
    Table table = look.table("stages", {"stage", "elements", "start", "changed", "last"});
    for (std::size_t i = 0; i < look.run.setup.stages.size(); ++i) {
        const run::StageRecord& stage = look.run.setup.stages[i];
        const int number = static_cast<int>(i) + 1;
        table.rows.push_back(
            {std::to_string(number),
             {std::to_string(number),
              joined({std::to_string(stage.elements) + " × " + look.say("app.stage." + stage.kind),
                      run::elementTypeIn(look.run, number), stage.ratingUm ? stage.ratingUm->toText() + " µm" : ""}),
              atStartText(look, stage), changesText(look, number), lastDropText(look, i)}});
    }
    return table;
}

Table alertsTable(const Look& look)
{
    Table table = look.table("alerts", {"raised", "alert", "acknowledged", "became"});
    for (const run::AlertLine& line : run::alertLogOf(look.run)) {
        const std::string acknowledged = line.acknowledged
            ? joined({timeText(*line.acknowledged), look.nameOf(line.acknowledgedBy), line.why})
            : joined({look.say("report.alerts.not-acknowledged"), line.why});
        table.rows.push_back({std::string(run::nameOf(line.alert)),
                              {timeText(line.raised), words::alertSentence(look.words, line.alert, line.told),
                               acknowledged, becameOf(look, line)}});
    }
    return table;
}

Table findingsTable(const Look& look)
{
    Table table = look.table("findings", {"since", "finding", "because", "do"});
    for (const run::Finding& finding : look.standing.findings) {
        table.rows.push_back({std::string(finding.id),
                              {timeText(finding.since), words::findingSentence(look.words, finding),
                               look.sayAll(finding.because), finding.act.id.empty() ? "" : look.say(finding.act)}});
    }
    return table;
}

Table readingsTable(const Look& look)
{
    Table table = look.table("readings", {"at", "time"});
    const auto addColumn = [&](const std::string& id, const Message& title) {
        table.columns.push_back({id, look.say(title)});
    };
    for (std::size_t i = 1; i <= look.run.setup.cart.gauges.size(); ++i) {
        table.columns.push_back({"g" + std::to_string(i), "G" + std::to_string(i)});
    }
    addColumn("oil", {"report.readings.oil", {}});
    addColumn("flow", {"report.readings.flow", {}});
    for (std::size_t i = 1; i <= look.run.setup.stages.size(); ++i) {
        addColumn("stage" + std::to_string(i), {"report.readings.drop", {{"stage", std::to_string(i)}}});
    }
    addColumn("person", {"report.column.person", {}});
    addColumn("marks", {"report.column.marks", {}});
    for (const Fact* fact : factsBySeen(look.run)) {
        if (const auto* reading = std::get_if<run::ReadingLogged>(&fact->effective)) {
            table.rows.push_back(readingRow(look, *fact, *reading));
        }
    }
    return table;
}

Table eventsTable(const Look& look)
{
    Table table = look.table("events", {"at", "time", "person", "what", "marks"});
    for (const Fact* fact : factsBySeen(look.run)) {
        const std::string text = isEvent(fact->effective)
            ? entryText(look.words, look.run, fact->effective, look.nameOf)
            : std::string();
        if (!text.empty()) {
            table.rows.push_back({toText(fact->header.id),
                                  {timeText(fact->seen), dayText(fact->header.entered, fact->header.observed.agoMs),
                                   look.nameOf(fact->header.person), text, marksOf(look, *fact)}});
        }
    }
    return table;
}

} // namespace loopside::report
