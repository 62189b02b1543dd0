// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What happened. Events are facts: they are stored, never edited and never recomputed.
//
// Most of them are what a person says (`Said` of a run, `JobOpened` and `JobSaid` of a job that is none): the command
// that says it and the event that keeps it are the same thing. The rest the program adds: a run opened or closed with
// its totals, an alert as it was told. Everything else that Loopside shows (ΔP, loading, turnovers, questions) is a
// judgement and is computed from these: see standing.h.

#pragma once

#include "base/id.h"
#include "run/catalogue.h"
#include "run/place_learned.h"

#include <array>
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace loopside::run {

/// Time of a run: since it was opened. Never from the wall clock where a monotonic one covers it.
using RunTime = std::chrono::milliseconds;

/// What the cart does with the oil. The valve is meant, not the bypass valve of an element.
enum class Mode
{
    Stopped,
    Bypassing,
    Filtering
};

/// The alerts of a run, by contracts in DEVELOPERS.md (alerts).
enum class AlertId
{
    StageNearLimit,
    StageAtLimit,
    ReadingOverdue,
    TargetTurnoversMet,
    TargetCodeMet,
    StopNow
};

/// How a run ended.
enum class Ending
{
    TargetMet,
    TargetMetCodeAwaited,
    StoppedEarly,
    Abandoned
};

/// What one dial showed, in the gauge's unit or the one stated with the reading.
struct GaugeTyped
{
    Decimal low;                 ///< The value, or the low end where the needle swings.
    std::optional<Decimal> high; ///< The high end where it swings.

    friend bool operator==(const GaugeTyped&, const GaugeTyped&) = default;
};

struct ModeChanged
{
    Mode mode = Mode::Stopped;
    std::optional<TypedFlow> flow = {};
    friend bool operator==(const ModeChanged&, const ModeChanged&) = default;
};

struct ReadingLogged
{
    std::vector<std::optional<GaugeTyped>> gauges; ///< Nothing where a gauge could not be read.
    const PressureUnit* unit = nullptr;            ///< Stated with the reading; null: each gauge's own.
    std::optional<TypedTemperature> oil = {};
    std::optional<TypedFlow> flow = {};
    friend bool operator==(const ReadingLogged&, const ReadingLogged&) = default;
};

/// What was seen or heard: foam, haze, whine, clicking, leak.
struct SignsSeen
{
    std::vector<std::string> signs;
    friend bool operator==(const SignsSeen&, const SignsSeen&) = default;
};

struct Noted
{
    std::string text;
    Id of = {}; ///< The entry that it is about; none: the run.
    friend bool operator==(const Noted&, const Noted&) = default;
};

struct QuestionAnswered
{
    std::string question;
    Id of = {};      ///< The entry that was questioned.
    std::string say; ///< yes, no or part, or free words.
    std::optional<Decimal> minutes = {};
    friend bool operator==(const QuestionAnswered&, const QuestionAnswered&) = default;
};

/// A later reading of the same moment. Only what is given changes; the original stays.
struct Amended
{
    Id of = {};
    std::vector<std::optional<GaugeTyped>> gauges = {}; ///< Empty: unchanged.
    const PressureUnit* unit = nullptr;
    std::optional<TypedTemperature> oil = {};
    std::optional<TypedFlow> flow = {};
    std::optional<Mode> mode = {};
    std::optional<int> elements = {};
    std::optional<std::string> note = {};
    bool struck = false; ///< The entry is not to be used at all.
    std::string why;
    friend bool operator==(const Amended&, const Amended&) = default;
};

struct ElementsChanged
{
    int stage = 1;    ///< From 1.
    int elements = 2; ///< How many of them are new.
    std::string type; ///< Element type, if another than before.
    friend bool operator==(const ElementsChanged&, const ElementsChanged&) = default;
};

struct SampleDrawn
{
    std::string id;
    int port = 0;             ///< 1…N+1 like the gauges; 0: from the tank.
    std::string point = {};   ///< Where else than at the port, in free words, such as "bottom drain"; empty: not told.
    std::string machine = {}; ///< What the machine at the tank did: running or idle; empty: not told.
    std::optional<TypedTemperature> oil = {}; ///< Of the oil in the bottle's stream; none: not measured for it.
    std::optional<TypedVolume> purged = {};   ///< Let out before the bottle was filled.
    std::optional<std::int64_t> purgedS = {}; ///< How long it ran out before, by the timer.
    friend bool operator==(const SampleDrawn&, const SampleDrawn&) = default;
};

struct ResultEntered
{
    std::string sample;
    std::string code;                        ///< As reported; empty if counts are given.
    std::vector<Decimal> countsPerMl = {};   ///< At ≥4, ≥6, ≥14 µm(c).
    std::string water;                       ///< As reported, such as "90 ppm".
    std::string viscosity;                   ///< As reported, such as "46 cSt".
    std::string acid = {};                   ///< As reported, such as "0.12 mg KOH/g".
    std::string method = {};                 ///< How it was counted, such as counter or microscope; empty: not told.
    std::optional<TypedVolume> counted = {}; ///< Of oil in which the particles were counted; none: not told.
    std::string report = {};                 ///< Number of the laboratory's report.
    friend bool operator==(const ResultEntered&, const ResultEntered&) = default;
};

struct AlertAcknowledged
{
    AlertId alert = AlertId::StageAtLimit;
    std::optional<int> stage = {};
    std::string why;
    friend bool operator==(const AlertAcknowledged&, const AlertAcknowledged&) = default;
};

struct AlertShelved
{
    AlertId alert = AlertId::StageAtLimit;
    std::optional<int> stage = {};
    std::string why;
    RunTime forMs{0};
    friend bool operator==(const AlertShelved&, const AlertShelved&) = default;
};

/// An alert was taken out of service for this run, or put back. Out of service it is not raised; see `mayLeaveService`.
struct AlertServiced
{
    AlertId alert = AlertId::ReadingOverdue;
    std::optional<int> stage = {};
    bool isInService = false; ///< What it is from now on.
    std::string why;
    friend bool operator==(const AlertServiced&, const AlertServiced&) = default;
};

/// The run was written to the wrong tank: from its first entry on it belongs to this one. The entry that opened it
/// stays as it was.
struct RunMoved
{
    TankRecord tank;
    std::string why;
    friend bool operator==(const RunMoved&, const RunMoved&) = default;
};

/// A point of a checklist (checklist.h) or another check, answered.
struct CheckAnswered
{
    std::string check;
    std::string say;
    std::string why = {};  ///< Why the point was left out; empty otherwise.
    bool wasAsked = false; ///< It came at once after the one before, was asked about, and was confirmed.
    friend bool operator==(const CheckAnswered&, const CheckAnswered&) = default;
};

/// Every verdict that a start can be judged with, as told.
inline constexpr std::array<std::string_view, 5> startVerdicts = {"go", "go-slower", "warm", "no-go", "cannot-tell"};

/// What is attached to an entry.
enum class AttachmentKind
{
    Photo,
    Drawing,
    Sound,
    Document ///< The record of the run, as it was at that moment.
};

/// Something that is no text, kept in a file of its own (store/attachment_folder.h) before this was said. The entry has
/// nothing of its content but the hash of the file, which is salted: once the file is gone, nothing can be told of it.
struct AttachmentAdded
{
    AttachmentKind kind = AttachmentKind::Photo;
    Id of = {};             ///< The entry that it is about; none: the run.
    std::string hash;       ///< SHA-256 of the file, its name too: 64 hexadecimal digits.
    std::int64_t bytes = 0; ///< Of the content, without the salt.
    std::string mediaType;  ///< Such as "image/png".
    std::string caption = {};
    friend bool operator==(const AttachmentAdded&, const AttachmentAdded&) = default;
};

/// An attachment is not to be shown any more. Its entry stays, and says that it was withdrawn.
struct AttachmentWithdrawn
{
    Id of = {}; ///< The entry that added it.
    std::string why;
    friend bool operator==(const AttachmentWithdrawn&, const AttachmentWithdrawn&) = default;
};

/// What was told of the start before the pump ran, and who started against it, if somebody did.
struct StartTold
{
    std::string verdict = {};                 ///< One of `startVerdicts`; empty only where an override names none.
    std::string limiting = {};                ///< What limits the start, as told, such as "suction"; empty: nothing.
    std::optional<TypedTemperature> oil = {}; ///< What it was judged at.
    std::optional<TypedFlow> flow = {};       ///< At which it was told to go.
    std::string by = {};                      ///< Id of who starts against the verdict, once a name; empty: nobody.
    std::string why = {};                     ///< Why; there exactly where `by` is.

    [[nodiscard]] bool isOverride() const { return !by.empty(); }
    friend bool operator==(const StartTold&, const StartTold&) = default;
};

/// Oil of the tank that was pumped to waste within a run. It credits nothing and marks the cart (state.h).
struct WasteTransferred
{
    TypedVolume volume;
    std::string container = {};
    std::optional<TypedVolume> capacity = {}; ///< Of the container, to the brim.
    std::optional<TypedVolume> holds = {};    ///< What was in the container before.
    std::string stream = {};                  ///< What the label says, such as "used oil".
    friend bool operator==(const WasteTransferred&, const WasteTransferred&) = default;
};

/// Facts that are kept as they were given, for work that reads them: a tag, a position, a hand-over, an adoption.
/// `what` is the story key, `details` its JSON text. Journals of old hold transfers so, too.
struct Kept
{
    std::string what;
    std::string details;
    friend bool operator==(const Kept&, const Kept&) = default;
};

/// The kinds of what a person says.
using SaidKinds = std::variant<ModeChanged, ReadingLogged, SignsSeen, Noted, QuestionAnswered, Amended, ElementsChanged,
                               SampleDrawn, ResultEntered, AlertAcknowledged, AlertShelved, AlertServiced, RunMoved,
                               CheckAnswered, AttachmentAdded, AttachmentWithdrawn, StartTold, WasteTransferred, Kept>;

/// What a person says. A class of its own, as Event is.
struct Said : SaidKinds
{
    using SaidKinds::SaidKinds;
    Said();
    Said(const Said&);
    Said(Said&&) noexcept;
    Said& operator=(const Said&);
    Said& operator=(Said&&) noexcept;
    ~Said();
    friend bool operator==(const Said& one, const Said& other);
};

/// A cart is flushed with the oil that it is to pump next: batch by batch, each mixed with what is left inside.
struct FlushOpened
{
    std::string cart;
    std::string fromFluid = {};                               ///< What was in it, as told; empty if unknown.
    std::string toFluid = {};                                 ///< What it is flushed with.
    std::string toFamily = {};                                ///< Its kind, such as hydraulic; empty if unknown.
    TypedVolume left;                                         ///< What stays inside when it is drained.
    std::optional<TypedVolume> batch = {};                    ///< Planned, each.
    std::optional<units::Typed<units::Fraction>> wanted = {}; ///< Of the old oil that may stay, at most.
    std::string approver = {};                                ///< Id of a person, once a name.
    friend bool operator==(const FlushOpened&, const FlushOpened&) = default;
};

/// One filling that went through and was drained again.
struct FlushBatch
{
    TypedVolume volume;
    friend bool operator==(const FlushBatch&, const FlushBatch&) = default;
};

struct FlushClosed
{
    bool elementsRenewed = false;
    std::string note = {};
    friend bool operator==(const FlushClosed&, const FlushClosed&) = default;
};

/// The pump was started to move oil from a tank into one container of waste. A second container is a second job.
struct TransferOpened
{
    std::string tank;
    std::string cart;
    std::string fluid = {};  ///< As told, such as "ISO VG 220 gear".
    std::string family = {}; ///< Its kind, such as gear; empty if unknown.
    std::string container = {};
    TypedVolume capacity;                  ///< To the brim.
    std::optional<TypedVolume> holds = {}; ///< What is in the container already; none: not known.
    TypedVolume planned;
    std::optional<TypedFlow> flow = {};     ///< Of the pump; none: not known.
    std::optional<Mode> valve = {};         ///< What the cart's valve showed; none: nobody looked.
    std::string stream = {};                ///< What the label says, such as "used oil".
    std::string confirmed = {};             ///< Tag of the source as confirmed at the tank; empty: not confirmed.
    std::vector<CheckAnswered> checks = {}; ///< Points of the checklist of a transfer, as answered before it.
    friend bool operator==(const TransferOpened&, const TransferOpened&) = default;
};

struct TransferStopped
{
    std::optional<TypedVolume> moved = {}; ///< None: not known.
    std::string note = {};
    friend bool operator==(const TransferStopped&, const TransferStopped&) = default;
};

/// What begins a job that is no run, and what is said of one.
using JobOpened = std::variant<FlushOpened, TransferOpened>;
using JobSaid = std::variant<FlushBatch, FlushClosed, TransferStopped>;

/// What a loading that is over teaches: computed once by learning.h, then a fact. Judged by it is what comes later.
///
/// Of one run and stage the loadings count from 1; one that is told again takes the place of what was told before.
struct LoadingLearned
{
    struct Point
    {
        double load_l;  ///< Caught, in litres' worth of the dirt at the start (forecast/load_axis.h).
        double drop_pa; ///< Corrected.
        friend bool operator==(const Point&, const Point&) = default;
    };

    int stage = 1;
    int number = 1;
    std::string tank = {};
    std::string elementType = {}; ///< Empty if unknown.
    std::string kind = {};        ///< particle or water; empty if unknown.
    double limit_pa = 0.0;        ///< The corrected drop that its limit was, or came to at its end.
    double end_l = 0.0;           ///< The load at its limit, or when it was cut short.
    double readingError_pa = 0.0; ///< Of the drops, expanded (k = 2).
    bool isCutShort = false;
    bool isUsed = false;      ///< The elements had caught something at load 0: teaches of their kind of curve, no life.
    bool isWithdrawn = false; ///< An amendment took its ground away; nothing is learned from it.
    std::vector<Point> curve = {};
    friend bool operator==(const LoadingLearned&, const LoadingLearned&) = default;
};

struct RunOpened
{
    Setup setup;
    std::vector<LoadingLearned> learned = {}; ///< All that the run's forecasts may learn from, for good.
    PlaceLearned place = {};                  ///< What was known of its tank and of its dials, for good.
    friend bool operator==(const RunOpened&, const RunOpened&) = default;
};

/// Turnovers through the filters: what is stated at least, what is most likely, what would be all of it.
struct TurnoverBand
{
    double low = 0.0;
    double best = 0.0;
    double high = 0.0;
    friend bool operator==(const TurnoverBand&, const TurnoverBand&) = default;
};

struct RunClosed
{
    Ending ending = Ending::StoppedEarly;
    std::string why;
    TurnoverBand turnovers = {};
    double filtered_l = 0.0; ///< Best value.
    friend bool operator==(const RunClosed&, const RunClosed&) = default;
};

/// An alert as it was told: never recomputed.
struct AlertRaised
{
    AlertId alert = AlertId::StageAtLimit;
    std::optional<int> stage = {};
    Id ground = {};                           ///< The entry that raised it; none: time alone.
    std::vector<Message::Argument> told = {}; ///< The values in the sentence.
    friend bool operator==(const AlertRaised&, const AlertRaised&) = default;
};

/// The ground of an alert went away.
struct AlertCleared
{
    AlertId alert = AlertId::StageAtLimit;
    std::optional<int> stage = {};
    friend bool operator==(const AlertCleared&, const AlertCleared&) = default;
};

/// The wall clock of the device was set by more than two minutes since its last entry. Changes no duration.
struct ClockJumped
{
    std::int64_t byMs = 0; ///< Forward is positive.
    friend bool operator==(const ClockJumped&, const ClockJumped&) = default;
};

/// The local time of the device became another (summer time, another time zone). Changes no duration.
struct ClockOffsetChanged
{
    int fromMin = 0; ///< Local time minus UTC.
    int toMin = 0;
    friend bool operator==(const ClockOffsetChanged&, const ClockOffsetChanged&) = default;
};

/// The device was started anew since its last entry: how long that took, its wall clock alone tells.
struct TabletRestarted
{
    std::int64_t byMs = 0;   ///< By the wall clock since the last entry; below 0 where it was set back meanwhile.
    std::int64_t sureMs = 0; ///< Since the start of the device: by its monotonic clock.
    friend bool operator==(const TabletRestarted&, const TabletRestarted&) = default;
};

/// Nobody was reminded for a while: the device was suspended, or the open program stood still. A program that was
/// closed meanwhile notes nothing. Changes no duration.
struct TabletSlept
{
    std::int64_t forMs = 0; ///< By the monotonic clock, which goes on.
    friend bool operator==(const TabletSlept&, const TabletSlept&) = default;
};

/// Elements went into the stock or out of it. The stock of a type is the sum of these.
struct StockMoved
{
    std::string type;
    int elements = 0; ///< In is positive.
    std::string why;
    Id of = {}; ///< The changeover that used them; none: a person told it.
    friend bool operator==(const StockMoved&, const StockMoved&) = default;
};

/// A record of the catalogue, put whole: the latest one of a name (of a person: of an id) holds from then on. Runs keep
/// the copies that they were opened with.
struct TankPut
{
    TankRecord tank;
    std::string plate = {}; ///< What the plate at the tank shows; empty if it has none.
    friend bool operator==(const TankPut&, const TankPut&) = default;
};

struct CartPut
{
    CartRecord cart;
    std::vector<StageRecord> stages;
    friend bool operator==(const CartPut&, const CartPut&) = default;
};

struct PersonPut
{
    PersonRecord person;
    friend bool operator==(const PersonPut&, const PersonPut&) = default;
};

/// An oil of the site under the name that it is ordered by.
struct FluidPut
{
    std::string name;
    FluidRecord fluid;
    friend bool operator==(const FluidPut&, const FluidPut&) = default;
};

/// Elements of one type, as a stage that is filled with them; `type` is the name. What a run finds in the stage (how it
/// is loaded, spare sets) is nothing of a type.
struct ElementTypePut
{
    StageRecord stage;
    friend bool operator==(const ElementTypePut&, const ElementTypePut&) = default;
};

/// A job that somebody plans. Out of service, it was withdrawn.
struct JobPut
{
    JobRecord job;
    friend bool operator==(const JobPut&, const JobPut&) = default;
};

/// Every kind of record that can be out of service.
inline constexpr std::array<std::string_view, 5> recordKinds = {"tank", "cart", "fluid", "element-type", "job"};

/// A record was taken out of service, or put back. It stays in the catalogue, marked, and is offered nowhere. A record
/// that is put again stays as it is: out of service or in.
struct RecordServiced
{
    std::string kind; ///< One of `recordKinds`.
    std::string name;
    bool isInService = false; ///< What it is from now on.
    std::string why;
    friend bool operator==(const RecordServiced&, const RecordServiced&) = default;
};

using RecordPut = std::variant<TankPut, CartPut, PersonPut, FluidPut, ElementTypePut, JobPut, RecordServiced>;

using EventKinds =
    std::variant<ModeChanged, ReadingLogged, SignsSeen, Noted, QuestionAnswered, Amended, ElementsChanged, SampleDrawn,
                 ResultEntered, AlertAcknowledged, AlertShelved, AlertServiced, RunMoved, CheckAnswered,
                 AttachmentAdded, AttachmentWithdrawn, StartTold, WasteTransferred, Kept, FlushOpened, TransferOpened,
                 FlushBatch, FlushClosed, TransferStopped, RunOpened, RunClosed, AlertRaised, AlertCleared, ClockJumped,
                 ClockOffsetChanged, TabletRestarted, TabletSlept, LoadingLearned, StockMoved, TankPut, CartPut,
                 PersonPut, FluidPut, ElementTypePut, JobPut, RecordServiced>;

/// What happened: one of the kinds above. A class of its own, so that copying, comparing and ending so many kinds is
/// compiled once, in event.cpp, and not in every file that has an event at hand.
struct Event : EventKinds
{
    using EventKinds::EventKinds;
    Event();
    Event(const Event&);
    Event(Event&&) noexcept;
    Event& operator=(const Event&);
    Event& operator=(Event&&) noexcept;
    ~Event();
    friend bool operator==(const Event& one, const Event& other);
};

/// What a person said, as an event.
[[nodiscard]] Event asEvent(const Said& said);
[[nodiscard]] Event asEvent(const JobOpened& opened);
[[nodiscard]] Event asEvent(const JobSaid& said);
[[nodiscard]] Event asEvent(const RecordPut& put);

/// Whether a person said it of a run (and not the program by itself). Time is cut at these.
[[nodiscard]] bool isSaid(const Event& event);

/// Whether it begins a job that is no run, or is said of one.
[[nodiscard]] bool isOfJob(const Event& event);

/// Whether an alert may be taken out of service: not one that stops the pump or asks for new elements.
[[nodiscard]] bool mayLeaveService(AlertId alert);

[[nodiscard]] std::string_view nameOf(Mode mode);
[[nodiscard]] std::string_view nameOf(AlertId alert);
[[nodiscard]] std::string_view nameOf(Ending ending);
[[nodiscard]] std::string_view nameOf(AttachmentKind kind);
[[nodiscard]] std::optional<Mode> modeNamed(std::string_view name);
[[nodiscard]] std::optional<AlertId> alertNamed(std::string_view name);
[[nodiscard]] std::optional<Ending> endingNamed(std::string_view name);
[[nodiscard]] std::optional<AttachmentKind> attachmentKindNamed(std::string_view name);

} // namespace loopside::run
