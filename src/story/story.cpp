// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/story.h"

#include "base/text.h"
#include "ledger/body.h"
#include "ledger/setup_json.h"
#include "run/job.h"
#include "run/question.h"
#include "story/vocabulary.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>

namespace loopside::story {

namespace {

using ledger::JsonReader;
using run::RunTime;

/// An unsigned number of exactly `digits` digits, or of at least one if `digits` is 0.
std::optional<int> digitsFrom(std::string_view text, std::size_t digits)
{
    int number = 0;
    const auto [rest, problem] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool isWhole = problem == std::errc{} && rest == text.data() + text.size() && text.front() != '-';
    const bool fits = digits == 0 ? text.size() <= 6 : text.size() == digits;
    return !text.empty() && isWhole && fits ? std::optional(number) : std::nullopt;
}

std::optional<int> offsetFrom(std::string_view text)
{
    if (text == "Z") {
        return 0;
    }
    if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') {
        return std::nullopt;
    }
    const auto hours = digitsFrom(text.substr(1, 2), 2);
    const auto minutes = digitsFrom(text.substr(4, 2), 2);
    if (!hours || !minutes || *hours > 14 || *minutes > 59) {
        return std::nullopt;
    }
    return (text[0] == '-' ? -1 : 1) * (*hours * 60 + *minutes);
}

/// YYYY-MM-DDTHH:MM:SS as if it were UTC.
std::optional<std::chrono::sys_seconds> civilFrom(std::string_view text)
{
    if (text.size() != 19 || text[4] != '-' || text[7] != '-' || text[10] != 'T' || text[13] != ':'
        || text[16] != ':') {
        return std::nullopt;
    }
    const std::array<std::optional<int>, 6> parts = {
        digitsFrom(text.substr(0, 4), 4),  digitsFrom(text.substr(5, 2), 2),  digitsFrom(text.substr(8, 2), 2),
        digitsFrom(text.substr(11, 2), 2), digitsFrom(text.substr(14, 2), 2), digitsFrom(text.substr(17, 2), 2)};
    if (std::any_of(parts.begin(), parts.end(), [](const auto& part) { return !part; })) {
        return std::nullopt;
    }
    const std::chrono::year_month_day day{std::chrono::year(*parts[0]),
                                          std::chrono::month(static_cast<unsigned>(*parts[1])),
                                          std::chrono::day(static_cast<unsigned>(*parts[2]))};
    if (!day.ok() || *parts[3] > 23 || *parts[4] > 59 || *parts[5] > 59) {
        return std::nullopt;
    }
    return std::chrono::sys_days(day) + std::chrono::hours(*parts[3]) + std::chrono::minutes(*parts[4])
        + std::chrono::seconds(*parts[5]);
}

RunTime readTime(const JsonReader& time)
{
    return time.orRefuse(timeFrom(time.text()));
}

/// Reads the entries one after the other; each may name the ones before it.
class EntriesReader
{
public:
    EntriesReader(Story& story) : story_{story} {}

    void read(const JsonReader& entry)
    {
        entry.onlyKeys({"at",       "mode",   "gauges",   "unit",   "oil",        "flow",   "entered_at",
                        "seen",     "note",   "answer",   "amend",  "changeover", "sample", "result",
                        "ack",      "shelve", "wall",     "device", "person",     "tag",    "fix",
                        "handover", "adopt",  "transfer", "close",  "override",   "service"});
        StoryEntry read;
        read.place = entry.place();
        read.at = entry.at("at").text();
        readTimes(entry, read);
        read.device = entry.textOr("device");
        read.person = entry.textOr("person");
        refuseStrays(entry);
        for (const auto step : {&EntriesReader::overrideStep, &EntriesReader::modeStep, &EntriesReader::aboutSteps,
                                &EntriesReader::changeoverStep, &EntriesReader::readingStep,
                                &EntriesReader::remarkSteps, &EntriesReader::sampleSteps, &EntriesReader::transferStep,
                                &EntriesReader::keptSteps, &EntriesReader::alertSteps, &EntriesReader::closeStep}) {
            (this->*step)(entry, read.steps);
        }
        const bool isAboutWho = read.wall || !read.person.empty() || !read.device.empty();
        if (read.steps.empty() && !isAboutWho) {
            entry.refuse("this entry says nothing: it has a time but no reading, mode, note or other fact");
        }
        story_.entries.push_back(std::move(read));
    }

private:
    using Steps = std::vector<Step>;

    void readTimes(const JsonReader& entry, StoryEntry& read)
    {
        read.seen = readTime(entry.at("at"));
        if (!story_.entries.empty() && read.seen < story_.entries.back().seen) {
            entry.at("at").refuse("time goes backwards: " + read.at + " comes after " + story_.entries.back().at);
        }
        read.entered = entry.ifThere("entered_at", readTime).value_or(read.seen);
        if (read.entered < read.seen) {
            entry.at("entered_at").refuse("nothing is entered before it is seen, here at " + read.at);
        }
        read.wall = entry.ifThere("wall",
                                  [](const JsonReader& wall) { return wall.orRefuse(wallTimeFrom(wall.text())); });
    }

    /// A unit or an oil temperature without gauges would be lost.
    static void refuseStrays(const JsonReader& entry)
    {
        for (const std::string_view key : {"unit", "oil"}) {
            if (entry.find(key) && !entry.find("gauges")) {
                entry.at(key).refuse("this needs \"gauges\" beside it; a gauge that could not be read is null");
            }
        }
        if (entry.find("flow") && !entry.find("gauges") && !entry.find("mode")) {
            entry.at("flow").refuse("a flow is stated with a mode or with gauges");
        }
    }

    /// A start against its verdict comes before the pump.
    void overrideStep(const JsonReader& entry, Steps& steps)
    {
        if (const auto started = entry.find("override")) {
            started->onlyKeys({"by", "why", "verdict", "limiting"});
            for (const std::string_view key : {"by", "why"}) {
                if (started->at(key).text().empty()) {
                    started->at(key).refuse("a start against the verdict needs who starts and why");
                }
            }
            steps.emplace_back(run::Said(possible(ledger::readStartTold(*started), *started)));
        }
    }

    void transferStep(const JsonReader& entry, Steps& steps)
    {
        if (const auto transfer = entry.find("transfer")) {
            steps.emplace_back(run::Said(possible(ledger::readWasteTransfer(*transfer), *transfer)));
        }
    }

    /// `said`, unless it is refused as impossible.
    template<class What>
    static What possible(What said, const JsonReader& place)
    {
        if (const auto fault = run::faultIn(said)) {
            place.refuse(fault->sentence);
        }
        return said;
    }

    void modeStep(const JsonReader& entry, Steps& steps)
    {
        if (const auto mode = entry.find("mode")) {
            steps.emplace_back(run::Said(run::ModeChanged{ledger::readMode(*mode), flowOf(entry)}));
        }
    }

    void readingStep(const JsonReader& entry, Steps& steps)
    {
        const auto gauges = entry.find("gauges");
        if (!gauges) {
            return;
        }
        flowOf(entry);
        auto reading = ledger::readReading(entry);
        const std::size_t wanted = story_.setup.cart.gauges.size();
        if (reading.gauges.size() != wanted) {
            gauges->refuse("this cart has " + std::to_string(wanted) + " gauges, here are "
                           + std::to_string(reading.gauges.size()) + "; a gauge that could not be read is null");
        }
        steps.emplace_back(run::Said(std::move(reading)));
    }

    static std::optional<run::TypedFlow> flowOf(const JsonReader& entry)
    {
        auto flow = entry.quantityIfThere<units::Flow>("flow");
        if (flow && flow->number() < Decimal(0, 0)) {
            entry.at("flow").refuse("a flow cannot be " + flow->toText());
        }
        return flow;
    }

    void remarkSteps(const JsonReader& entry, Steps& steps)
    {
        if (const auto seen = entry.find("seen")) {
            steps.emplace_back(run::Said(ledger::readSigns(*seen)));
        }
        if (const auto note = entry.find("note")) {
            steps.emplace_back(run::Said(run::Noted{note->text()}));
        }
    }

    void changeoverStep(const JsonReader& entry, Steps& steps)
    {
        const auto changeover = entry.find("changeover");
        if (!changeover) {
            return;
        }
        const auto changed = ledger::readChangeover(*changeover);
        const std::size_t stages = story_.setup.stages.size();
        if (static_cast<std::size_t>(changed.stage) > stages) {
            changeover->at("stage").refuse("there is no stage " + std::to_string(changed.stage) + "; this cart has "
                                           + std::to_string(stages));
        }
        const int elements = story_.setup.stages[static_cast<std::size_t>(changed.stage) - 1].elements;
        if (changed.elements > elements) {
            changeover->at("elements")
                .refuse("stage " + std::to_string(changed.stage) + " has " + std::to_string(elements) + " elements");
        }
        steps.emplace_back(run::Said(changed));
    }

    void sampleSteps(const JsonReader& entry, Steps& steps)
    {
        if (const auto sample = entry.find("sample")) {
            sample->onlyKeys({"port", "id", "point", "machine", "oil", "purged", "purged_s"});
            steps.emplace_back(run::Said(ledger::readSample(*sample, story_.setup.cart.gauges.size())));
            samples_.push_back(sample->at("id").text());
        }
        if (const auto result = entry.find("result")) {
            auto read = ledger::readResult(*result);
            if (std::find(samples_.begin(), samples_.end(), read.sample) == samples_.end()) {
                result->at("sample").refuse("no sample \"" + quotable(read.sample) + "\" was drawn before this");
            }
            steps.emplace_back(run::Said(std::move(read)));
        }
    }

    /// Facts whose details later work reads: kept as they were given.
    void keptSteps(const JsonReader& entry, Steps& steps)
    {
        for (const std::string_view key : {"tag", "fix", "handover", "adopt"}) {
            if (const auto fact = entry.find(key)) {
                steps.emplace_back(run::Said(run::Kept{std::string(key), ledger::toJson(fact->value())}));
            }
        }
    }

    void aboutSteps(const JsonReader& entry, Steps& steps)
    {
        std::size_t of = 0;
        const auto find = [&](const JsonReader& name) {
            of = indexOf(name);
            return Id{};
        };
        if (const auto answer = entry.find("answer")) {
            auto read = ledger::readAnswer(*answer, find);
            if (!isQuestion(read.question)) {
                answer->at("question").refuse("there is no question \"" + quotable(read.question) + "\"");
            }
            steps.emplace_back(AboutEntry{of, std::move(read)});
        }
        const auto amendment = entry.find("amend");
        if (amendment && isOfOpening(amendment->at("of"))) {
            steps.emplace_back(run::Said(readMove(*amendment)));
        } else if (amendment) {
            auto read = ledger::readAmendment(*amendment, find);
            if (!read.gauges.empty() && read.gauges.size() != story_.setup.cart.gauges.size()) {
                amendment->at("set").refuse("this cart has " + std::to_string(story_.setup.cart.gauges.size())
                                            + " gauges");
            }
            steps.emplace_back(AboutEntry{of, std::move(read)});
        }
    }

    static bool isOfOpening(const JsonReader& of) { return of.isText() && of.text() == "opened"; }

    /// The run belongs to another tank.
    static run::RunMoved readMove(const JsonReader& amendment)
    {
        amendment.onlyKeys({"of", "set", "why"});
        const JsonReader set = amendment.at("set");
        set.onlyKeys({"tank"});
        return {ledger::readTank(set.at("tank")), amendment.at("why").text()};
    }

    /// The place of the entry that `name` means: a number counts the entries from 0, a time means the last entry with
    /// it.
    [[nodiscard]] std::size_t indexOf(const JsonReader& name) const
    {
        if (name.isNumber()) {
            const int index = name.integer(0, 1'000'000);
            if (static_cast<std::size_t>(index) < story_.entries.size()) {
                return static_cast<std::size_t>(index);
            }
        } else {
            const RunTime at = readTime(name);
            const auto found = std::find_if(story_.entries.rbegin(), story_.entries.rend(),
                                            [&](const StoryEntry& entry) { return entry.seen == at; });
            if (found != story_.entries.rend()) {
                return static_cast<std::size_t>(std::distance(found, story_.entries.rend())) - 1;
            }
        }
        name.refuse("this names no entry before it; give its \"at\", or its place counted from 0");
    }

    void alertSteps(const JsonReader& entry, Steps& steps)
    {
        if (const auto ack = entry.find("ack")) {
            steps.emplace_back(AlertAnswered{ledger::readAlertAnswer(*ack), false});
        }
        if (const auto shelve = entry.find("shelve")) {
            const auto read = ledger::readAlertAnswer(*shelve);
            if (read.why.empty() || read.forMs <= RunTime{0}) {
                shelve->refuse("shelving needs a reason (\"why\") and a time (\"for\", such as \"15 min\")");
            }
            steps.emplace_back(AlertAnswered{read, true});
        }
        if (const auto service = entry.find("service")) {
            service->onlyKeys({"alert", "stage", "in_service", "why"});
            steps.emplace_back(run::Said(ledger::readServiced(*service)));
        }
    }

    void closeStep(const JsonReader& entry, Steps& steps)
    {
        const auto close = entry.find("close");
        if (!close) {
            return;
        }
        Closing closing;
        if (close->isText()) {
            closing.ending = ledger::readEnding(*close);
        } else if (close->isObject()) {
            close->onlyKeys({"ending", "why"});
            closing.ending = close->ifThere("ending", ledger::readEnding).value_or(closing.ending);
            closing.why = close->textOr("why");
        } else if (!close->boolean()) {
            close->refuse("an entry that does not close the run has no \"close\"");
        }
        steps.emplace_back(closing);
    }

    Story& story_;
    std::vector<std::string> samples_;
};

std::pair<double, double> readRange(const JsonReader& range)
{
    if (range.isNumber()) {
        return {range.real(), range.real()};
    }
    const auto ends = range.items();
    if (ends.size() != 2 || ends[0].real() > ends[1].real()) {
        range.refuse("a range is a list of two numbers, the lower first");
    }
    return {ends[0].real(), ends[1].real()};
}

void readExpectedId(const JsonReader& line, std::string_view key, bool (*isKnown)(std::string_view), Expectation& read)
{
    read.id = line.at(key).text();
    if (!isKnown(read.id)) {
        line.at(key).refuse("there is no such id: \"" + quotable(read.id) + "\"");
    }
}

void readExpectedValue(const JsonReader& line, Expectation& read)
{
    const JsonReader value = line.at(read.key);
    if (read.key == "finding" || read.key == "no_finding") {
        readExpectedId(line, read.key, isFinding, read);
    } else if (read.key == "question" || read.key == "no_question") {
        readExpectedId(line, read.key, isQuestion, read);
    } else if (read.key == "alert" || read.key == "no_alert") {
        readExpectedId(line, read.key, isAlert, read);
    } else if (read.key == "turnovers" || read.key == "loading" || read.key == "next_reading_s") {
        read.range = readRange(value);
    } else {
        read.value = value.value();
    }
}

Expectation readExpectation(const JsonReader& line, int stages)
{
    constexpr std::array<std::string_view, 12> keys = {"finding",  "no_finding",     "question",  "no_question",
                                                       "alert",    "no_alert",       "turnovers", "loading",
                                                       "forecast", "next_reading_s", "plan",      "proof"};
    line.onlyKeys({"at", "stage", "bound", "gauge", "finding", "no_finding", "question", "no_question", "alert",
                   "no_alert", "turnovers", "loading", "forecast", "next_reading_s", "plan", "proof"});
    Expectation read;
    read.place = line.place();
    if (const auto at = line.find("at"); at && at->text() != "end") {
        read.at = readTime(*at);
    }
    read.stage = line.ifThere("stage", [&](const JsonReader& stage) { return stage.integer(1, stages); });
    read.bound = line.textOr("bound", "best");
    if (read.bound != "low" && read.bound != "best" && read.bound != "high") {
        line.at("bound").refuse("a bound is low, best or high");
    }
    for (const std::string_view key : keys) {
        if (line.find(key)) {
            if (!read.key.empty()) {
                line.refuse("one line expects one thing; here are \"" + read.key + "\" and \"" + std::string(key)
                            + "\"");
            }
            read.key = key;
        }
    }
    if (read.key.empty()) {
        line.refuse("this line expects nothing");
    }
    readExpectedValue(line, read);
    return read;
}

Story readStory(const JsonReader& object)
{
    object.onlyKeys({"title", "tank", "cart", "stages", "target", "entries", "expect"});
    Story story{ledger::readSetup(object), {}, {}};
    EntriesReader entries(story);
    for (const JsonReader& entry : object.at("entries").items()) {
        entries.read(entry);
    }
    if (story.entries.empty()) {
        object.at("entries").refuse("a story has at least one entry");
    }
    if (const auto expect = object.find("expect")) {
        for (const JsonReader& line : expect->items()) {
            story.expectations.push_back(readExpectation(line, static_cast<int>(story.setup.stages.size())));
        }
    }
    return story;
}

} // namespace

Result<Story> parseStory(std::string_view text)
{
    return ledger::readJson(text, readStory);
}

Result<RunTime> timeFrom(std::string_view text)
{
    const auto first = text.find(':');
    const auto second = first == std::string_view::npos ? first : text.find(':', first + 1);
    if (second != std::string_view::npos) {
        const auto hours = digitsFrom(text.substr(0, first), 0);
        const auto minutes = digitsFrom(text.substr(first + 1, second - first - 1), 2);
        const auto seconds = digitsFrom(text.substr(second + 1), 2);
        if (hours && minutes && seconds && *minutes < 60 && *seconds < 60) {
            return RunTime{std::chrono::hours(*hours) + std::chrono::minutes(*minutes)
                           + std::chrono::seconds(*seconds)};
        }
    }
    return fail(Errc::Malformed, "\"" + quotable(text) + "\" is not a time of the form HH:MM:SS");
}

Result<WallTime> wallTimeFrom(std::string_view text)
{
    constexpr std::size_t civilLength = 19;
    if (text.size() > civilLength) {
        const auto civil = civilFrom(text.substr(0, civilLength));
        const auto offset = offsetFrom(text.substr(civilLength));
        if (civil && offset) {
            const auto utc = *civil - std::chrono::minutes(*offset);
            return WallTime{std::chrono::duration_cast<std::chrono::milliseconds>(utc.time_since_epoch()).count(),
                            *offset};
        }
    }
    return fail(Errc::Malformed, "\"" + quotable(text) + "\" is not a moment of the form 2026-10-25T01:45:00+01:00");
}

} // namespace loopside::story
