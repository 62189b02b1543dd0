// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/walk.h"

#include "base/text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

namespace loopside::test {

namespace {

using namespace run;

Id idOf(std::uint8_t kind, std::uint64_t count)
{
    Id id;
    id.bytes[0] = kind;
    id.bytes[14] = static_cast<std::uint8_t>(count >> 8U);
    id.bytes[15] = static_cast<std::uint8_t>(count);
    return id;
}

std::optional<GaugeTyped> gaugeFrom(const std::string& text)
{
    if (text == "-") {
        return std::nullopt;
    }
    const auto dots = text.find("..");
    if (dots == std::string::npos) {
        return GaugeTyped{number(text), std::nullopt};
    }
    return GaugeTyped{number(text.substr(0, dots)), number(text.substr(dots + 2))};
}

std::string stageText(std::optional<int> stage)
{
    return stage ? " " + std::to_string(*stage) : "";
}

std::string bandText(const TurnoverBand& band)
{
    return fixed(band.low, 6) + "/" + fixed(band.best, 6) + "/" + fixed(band.high, 6);
}

} // namespace

Decimal number(std::string_view text)
{
    return Decimal::parse(text).value();
}

Setup ordinary()
{
    const GaugeRecord dial{units::unitNamed<units::Pressure>("psi").value(), number("100"), number("1"), "B"};
    Setup setup{.title = "ordinary",
                .tank = {.name = "T1",
                         .volume = typed<units::Volume>("400 L"),
                         .fluid = {.kind = "hydraulic", .grade = "ISO VG 46", .viscosityIndex = number("98")}},
                .cart = {.name = "C1",
                         .flow = typed<units::Flow>("20 L/min"),
                         .lastFluid = "same",
                         .gauges = {dial, dial, dial},
                         .staticHead = typed<units::Pressure>("1 psi")},
                .stages = {}};
    const CleanAt cleanAt{typed<units::Flow>("20 L/min"), typed<units::KinematicViscosity>("46 cSt")};
    for (const auto& [clean, limit] : {std::pair("2.0 psi", "25 psi"), std::pair("4.0 psi", "42 psi")}) {
        StageRecord stage;
        stage.kind = "particle";
        stage.cleanDp = typed<units::Pressure>(clean);
        stage.cleanAt = cleanAt;
        stage.changeLimit = typed<units::Pressure>(limit);
        setup.stages.push_back(stage);
    }
    return setup;
}

Setup withTarget(Setup setup, std::string_view turnovers, const std::string& code, bool counterOnSite)
{
    setup.target = {number(turnovers), code, counterOnSite};
    return setup;
}

ReadingLogged gauges(std::string_view set, std::string_view unit)
{
    ReadingLogged reading;
    std::istringstream words{std::string(set)};
    for (std::string word; words >> word;) {
        reading.gauges.push_back(gaugeFrom(word));
    }
    reading.oil = typed<units::Temperature>("40 C");
    if (!unit.empty()) {
        reading.unit = units::unitNamed<units::Pressure>(unit).value();
    }
    return reading;
}

Walk::Walk(Setup setup) : id_{idOf(0xA0, 1)}
{
    act(0.0, OpenRun{id_, std::move(setup)});
}

Walk::Walk(Setup setup, std::vector<LoadingLearned> past, PlaceLearned place) : id_{idOf(0xA0, 1)}
{
    keep(contextAt(0.0), {{id_, RunOpened{std::move(setup), std::move(past), std::move(place)}}});
}

Walk& Walk::filteringAt(double minute, std::optional<std::string_view> flow)
{
    return sayAt(minute, ModeChanged{Mode::Filtering, flow ? std::optional(typed<units::Flow>(*flow)) : std::nullopt});
}

Walk& Walk::bypassingAt(double minute)
{
    return sayAt(minute, ModeChanged{Mode::Bypassing});
}

Walk& Walk::stoppedAt(double minute)
{
    return sayAt(minute, ModeChanged{Mode::Stopped});
}

Walk& Walk::readingAt(double minute, std::string_view set, std::string_view unit)
{
    return sayAt(minute, gauges(set, unit));
}

Walk& Walk::readingSeenEarlierAt(double minute, double minutesAgo, std::string_view set)
{
    return act(minute, Say{id_, gauges(set)}, minutesAgo);
}

Walk& Walk::noteAt(double minute)
{
    return sayAt(minute, Noted{"a note"});
}

Walk& Walk::changeoverAt(double minute, int stage, int elements)
{
    return sayAt(minute, ElementsChanged{stage, elements, {}});
}

Walk& Walk::answerAt(double minute, std::string_view question, const Id& of, std::string_view say,
                     std::optional<std::string_view> minutes)
{
    return sayAt(minute,
                 QuestionAnswered{std::string(question), of, std::string(say),
                                  minutes ? std::optional(number(*minutes)) : std::nullopt});
}

Walk& Walk::amendAt(double minute, const Id& of, std::string_view set)
{
    Amended amended;
    amended.of = of;
    amended.gauges = gauges(set).gauges;
    amended.why = "misread";
    return sayAt(minute, amended);
}

Walk& Walk::strikeAt(double minute, const Id& of)
{
    Amended amended;
    amended.of = of;
    amended.struck = true;
    amended.why = "wrong cart";
    return sayAt(minute, amended);
}

Walk& Walk::acknowledgeAt(double minute, AlertId alert, std::optional<int> stage)
{
    return sayAt(minute, AlertAcknowledged{alert, stage, "seen"});
}

Walk& Walk::shelveAt(double minute, AlertId alert, std::optional<int> stage, int minutes)
{
    return sayAt(minute, AlertShelved{alert, stage, "elements on their way", std::chrono::minutes(minutes)});
}

Walk& Walk::closeAt(double minute, Ending ending)
{
    return act(minute, CloseRun{id_, ending, "end of shift"});
}

Walk& Walk::tickAt(double minute)
{
    return act(minute, Tick{});
}

Walk& Walk::sayAt(double minute, Said what)
{
    return act(minute, Say{id_, std::move(what)});
}

Walk& Walk::openJobAt(double minute, std::uint8_t job, JobOpened what, double minutesAgo)
{
    return act(minute, OpenJob{idOfJob(job), std::move(what)}, minutesAgo);
}

Walk& Walk::sayOfJobAt(double minute, std::uint8_t job, JobSaid what)
{
    return act(minute, SayOfJob{idOfJob(job), std::move(what)});
}

Walk& Walk::openRunAt(double minute, std::uint8_t run, Setup setup)
{
    return act(minute, OpenRun{idOfJob(run), std::move(setup)});
}

Walk& Walk::sayOfRunAt(double minute, std::uint8_t run, Said what)
{
    return act(minute, Say{idOfJob(run), std::move(what)});
}

Id Walk::idOfJob(std::uint8_t job)
{
    return idOf(0xA1, job);
}

CartStanding Walk::cart(const std::string& name) const
{
    const CartStanding* standing = state_.cartOf(name);
    return standing == nullptr ? CartStanding{} : *standing;
}

Walk& Walk::wallJumps(double minutes)
{
    wallAhead_ += minutes;
    return *this;
}

Walk& Walk::restarts()
{
    ++boot_;
    bootedAt_ = now_;
    return *this;
}

Walk& Walk::onDevice(std::uint8_t device, double wallAheadMinutes)
{
    device_ = device;
    wallAhead_ = wallAheadMinutes;
    bootedAt_ = -1000.0 * device; // its monotonic clock has nothing to do with that of the others
    return *this;
}

Stamp Walk::stampAt(double minute) const
{
    constexpr double startMs = 1.8e12;
    Stamp stamp;
    stamp.wallMs = static_cast<std::int64_t>(startMs + std::round((minute + wallAhead_) * 60e3));
    stamp.monoNs = static_cast<std::uint64_t>(std::round((minute - bootedAt_) * 60e3)) * 1'000'000U;
    stamp.boot = idOf(0xB0, static_cast<std::uint64_t>(device_) * 256U + boot_);
    return stamp;
}

Context Walk::contextAt(double minute, double minutesAgo) const
{
    Observed observed;
    if (minutesAgo > 0.0) {
        observed = {std::llround(minutesAgo * 60e3), "said"};
    }
    return {idOf(0xD0, device_), idOf(0xE0, 1), idOf(0xF0, made_ + 1), stampAt(minute), observed};
}

Walk& Walk::act(double minute, const Command& command, double minutesAgo)
{
    now_ = minute;
    const Context context = contextAt(minute, minutesAgo);
    auto decided = decide(state_, command, context);
    if (!decided) {
        FAIL("refused at minute " << minute << ": " << decided.error().sentence);
    }
    return keep(context, *std::move(decided));
}

Walk& Walk::keep(const Context& context, std::vector<Decided> decided)
{
    decided_ = std::move(decided);
    for (std::size_t i = 0; i < decided_.size(); ++i) {
        Header header;
        header.id = idOf(0xF0, ++made_);
        header.device = context.device;
        header.sequence = made_;
        header.clock = made_; // hybrid clocks rise with every entry, whatever the wall clock does
        header.run = decided_[i].run;
        header.entered = context.now;
        header.observed = i == 0 ? context.observed : Observed{};
        header.person = context.person;
        if (i == 0 && isSaid(decided_[i].event)) {
            lastSaid_ = header.id;
        }
        state_ = apply(std::move(state_), header, decided_[i].event);
        entries_.push_back({header, decided_[i].event});
    }
    return *this;
}

Result<std::vector<Decided>> Walk::attempt(double minute, const Command& command) const
{
    return decide(state_, command, contextAt(minute));
}

Standing Walk::standingAt(double minute) const
{
    return standingOf(run(), run().clock.at(stampAt(minute), idOf(0xD0, device_)));
}

std::string Walk::alert(AlertId id, std::optional<int> stage) const
{
    const Alert* found = run().alertOf(id, stage);
    return found == nullptr ? "normal" : std::string(nameOf(found->state));
}

std::string printed(const Event& event)
{
    struct Printer
    {
        std::string operator()(const ModeChanged& mode) const
        {
            return "mode-changed " + std::string(nameOf(mode.mode));
        }
        std::string operator()(const ReadingLogged&) const { return "reading-logged"; }
        std::string operator()(const SignsSeen&) const { return "signs-seen"; }
        std::string operator()(const Noted&) const { return "noted"; }
        std::string operator()(const QuestionAnswered&) const { return "question-answered"; }
        std::string operator()(const Amended&) const { return "amended"; }
        std::string operator()(const ElementsChanged&) const { return "elements-changed"; }
        std::string operator()(const SampleDrawn&) const { return "sample-drawn"; }
        std::string operator()(const ResultEntered&) const { return "result-entered"; }
        std::string operator()(const AlertAcknowledged&) const { return "alert-acknowledged"; }
        std::string operator()(const AlertShelved&) const { return "alert-shelved"; }
        std::string operator()(const AlertServiced&) const { return "alert-serviced"; }
        std::string operator()(const RunMoved&) const { return "run-moved"; }
        std::string operator()(const StockMoved&) const { return "stock-moved"; }
        std::string operator()(const TankPut&) const { return "tank-put"; }
        std::string operator()(const CartPut&) const { return "cart-put"; }
        std::string operator()(const PersonPut&) const { return "person-put"; }
        std::string operator()(const FluidPut&) const { return "fluid-put"; }
        std::string operator()(const ElementTypePut&) const { return "element-type-put"; }
        std::string operator()(const JobPut&) const { return "job-put"; }
        std::string operator()(const RecordServiced&) const { return "record-serviced"; }
        std::string operator()(const CheckAnswered&) const { return "check-answered"; }
        std::string operator()(const AttachmentAdded&) const { return "attachment-added"; }
        std::string operator()(const AttachmentWithdrawn&) const { return "attachment-withdrawn"; }
        std::string operator()(const StartTold& start) const
        {
            return "start-told " + start.verdict + (start.isOverride() ? " overridden" : "");
        }
        std::string operator()(const WasteTransferred& waste) const
        {
            return "waste-transferred " + waste.volume.toText();
        }
        std::string operator()(const Kept&) const { return "kept"; }
        std::string operator()(const FlushOpened&) const { return "flush-opened"; }
        std::string operator()(const TransferOpened&) const { return "transfer-opened"; }
        std::string operator()(const FlushBatch& batch) const { return "flush-batch " + batch.volume.toText(); }
        std::string operator()(const FlushClosed&) const { return "flush-closed"; }
        std::string operator()(const TransferStopped&) const { return "transfer-stopped"; }
        std::string operator()(const RunOpened&) const { return "run-opened"; }
        std::string operator()(const RunClosed& closed) const
        {
            return "run-closed " + std::string(nameOf(closed.ending)) + " " + bandText(closed.turnovers);
        }
        std::string operator()(const AlertRaised& raised) const
        {
            return "alert-raised " + std::string(nameOf(raised.alert)) + stageText(raised.stage);
        }
        std::string operator()(const AlertCleared& cleared) const
        {
            return "alert-cleared " + std::string(nameOf(cleared.alert)) + stageText(cleared.stage);
        }
        std::string operator()(const ClockJumped& jump) const { return "clock-jumped " + std::to_string(jump.byMs); }
        std::string operator()(const ClockOffsetChanged& offset) const
        {
            return "clock-offset-changed " + std::to_string(offset.toMin - offset.fromMin);
        }
        std::string operator()(const TabletRestarted& start) const
        {
            return "tablet-restarted " + std::to_string(start.byMs) + " " + std::to_string(start.sureMs);
        }
        std::string operator()(const TabletSlept& slept) const { return "tablet-slept " + std::to_string(slept.forMs); }
        std::string operator()(const LoadingLearned& learned) const
        {
            return "loading-learned" + stageText(learned.stage) + " " + std::to_string(learned.number)
                + (learned.isWithdrawn ? " withdrawn" : "") + (learned.isCutShort ? " cut short" : "") + " at "
                + fixed(learned.end_l, 1) + " l with " + std::to_string(learned.curve.size()) + " points";
        }
    };
    return std::visit(Printer{}, event);
}

std::string printed(const State& state)
{
    std::ostringstream out;
    for (const auto& [id, run] : state.runs) {
        out << toText(id) << " " << nameOf(run.phase) << " " << run.closedAt.count() << "\n";
        for (const Fact& fact : run.facts) {
            out << "  " << toText(fact.header.id) << " " << printed(fact.effective) << (fact.struck ? " struck" : "")
                << " " << fact.entered.count() << " " << fact.seen.count() << " " << fact.amendedBy.size() << "\n";
        }
        for (const Alert& alert : run.alerts) {
            out << "  " << nameOf(alert.id) << stageText(alert.stage) << " " << nameOf(alert.state) << " "
                << alert.since.count() << (alert.asToldThen ? " as told then" : "") << "\n";
        }
        const RunTime now = run.facts.empty() ? RunTime{0} : run.facts.back().entered;
        out << "  " << bandText(standingOf(run, now).credit.turnovers) << "\n";
    }
    for (const auto& [id, job] : state.jobs) {
        out << toText(id) << " " << printed(asEvent(job.what)) << " " << (job.closedAt ? job.closedAt->count() : -1)
            << "\n";
        for (const JobFact& fact : job.facts) {
            out << "  " << toText(fact.header.id) << " " << printed(asEvent(fact.said)) << " " << fact.seen.count()
                << "\n";
        }
    }
    for (const auto& [name, cart] : state.carts) {
        const auto& mark = cart.flushBeforeCleanUse;
        out << name << ": " << cart.lastFluid << ", " << cart.lastFamily << ", "
            << (mark ? toText(mark->by) + " " + std::to_string(mark->since.wallMs) : "no mark") << ", "
            << toText(cart.lastFlush) << "\n";
    }
    return out.str();
}

} // namespace loopside::test
