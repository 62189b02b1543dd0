// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/body.h"

#include "base/text.h"
#include "ledger/learned_json.h"
#include "ledger/setup_json.h"
#include "run/notes.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <iterator>
#include <limits>

namespace loopside::ledger {

namespace {

using Json = nlohmann::ordered_json;
using namespace run;

template<class Typed>
void put(Json& body, const char* key, const std::optional<Typed>& typed)
{
    if (typed) {
        body[key] = typed->toText();
    }
}

void putText(Json& body, const char* key, const std::string& text)
{
    if (!text.empty()) {
        body[key] = text;
    }
}

void putId(Json& body, const char* key, const Id& id)
{
    if (!id.isNone()) {
        body[key] = toText(id);
    }
}

template<class Q>
void putSymbol(Json& body, const char* key, const units::NamedUnit<Q>* unit)
{
    if (unit != nullptr) {
        body[key] = std::string(unit->symbol);
    }
}

Json gaugesJson(const std::vector<std::optional<GaugeTyped>>& gauges)
{
    Json list = Json::array();
    for (const auto& gauge : gauges) {
        if (!gauge) {
            list.push_back(nullptr);
        } else if (gauge->high) {
            list.push_back({{"min", gauge->low.toText()}, {"max", gauge->high->toText()}});
        } else {
            list.push_back(gauge->low.toText());
        }
    }
    return list;
}

Json alertJson(AlertId alert, std::optional<int> stage)
{
    Json body = {{"alert", nameOf(alert)}};
    if (stage) {
        body["stage"] = *stage;
    }
    return body;
}

Json checkJson(const CheckAnswered& answered)
{
    Json body = {{"check", answered.check}, {"say", answered.say}};
    putText(body, "why", answered.why);
    if (answered.wasAsked) {
        body["asked"] = true;
    }
    return body;
}

/// Writes each event; the reader of the same kind stands in `kinds` below.
struct Writer
{
    Json operator()(const ModeChanged& event) const
    {
        Json body = {{"mode", nameOf(event.mode)}};
        put(body, "flow", event.flow);
        return body;
    }

    Json operator()(const ReadingLogged& event) const
    {
        Json body = {{"gauges", gaugesJson(event.gauges)}};
        putSymbol(body, "unit", event.unit);
        put(body, "oil", event.oil);
        put(body, "flow", event.flow);
        return body;
    }

    Json operator()(const SignsSeen& event) const { return {{"seen", event.signs}}; }

    Json operator()(const Noted& event) const
    {
        Json body = {{"note", event.text}};
        putId(body, "of", event.of);
        return body;
    }

    Json operator()(const QuestionAnswered& event) const
    {
        Json body = {{"question", event.question}, {"of", toText(event.of)}, {"say", event.say}};
        put(body, "minutes", event.minutes);
        return body;
    }

    Json operator()(const Amended& event) const
    {
        Json set = Json::object();
        if (!event.gauges.empty()) {
            set["gauges"] = gaugesJson(event.gauges);
        }
        putSymbol(set, "unit", event.unit);
        put(set, "oil", event.oil);
        put(set, "flow", event.flow);
        if (event.mode) {
            set["mode"] = nameOf(*event.mode);
        }
        if (event.elements) {
            set["elements"] = *event.elements;
        }
        if (event.note) {
            set["note"] = *event.note;
        }
        if (event.struck) {
            set["struck"] = true;
        }
        return {{"of", toText(event.of)}, {"set", set}, {"why", event.why}};
    }

    Json operator()(const ElementsChanged& event) const
    {
        Json body = {{"stage", event.stage}, {"elements", event.elements}};
        putText(body, "type", event.type);
        return body;
    }

    Json operator()(const SampleDrawn& event) const
    {
        Json body = {{"id", event.id}, {"port", event.port == 0 ? Json("tank") : Json(event.port)}};
        putText(body, "point", event.point);
        putText(body, "machine", event.machine);
        put(body, "oil", event.oil);
        put(body, "purged", event.purged);
        if (event.purgedS) {
            body["purged_s"] = *event.purgedS;
        }
        return body;
    }

    Json operator()(const ResultEntered& event) const
    {
        Json body = {{"sample", event.sample}};
        putText(body, "code", event.code);
        if (!event.countsPerMl.empty()) {
            body["counts_per_ml"] = Json::array();
            for (const Decimal& count : event.countsPerMl) {
                body["counts_per_ml"].push_back(count.toText());
            }
        }
        putText(body, "water", event.water);
        putText(body, "viscosity", event.viscosity);
        putText(body, "acid", event.acid);
        putText(body, "method", event.method);
        put(body, "counted", event.counted);
        putText(body, "report", event.report);
        return body;
    }

    Json operator()(const AlertAcknowledged& event) const
    {
        Json body = alertJson(event.alert, event.stage);
        putText(body, "why", event.why);
        return body;
    }

    Json operator()(const AlertShelved& event) const
    {
        Json body = alertJson(event.alert, event.stage);
        body["why"] = event.why;
        const std::int64_t ms = event.forMs.count();
        body["for"] = ms % 1000 == 0 ? std::to_string(ms / 1000) + " s" : Decimal(ms, 3).toText() + " s";
        return body;
    }

    Json operator()(const AlertServiced& event) const
    {
        Json body = alertJson(event.alert, event.stage);
        body["in_service"] = event.isInService;
        putText(body, "why", event.why);
        return body;
    }

    Json operator()(const RunMoved& event) const { return {{"tank", tankJson(event.tank)}, {"why", event.why}}; }

    Json operator()(const StockMoved& event) const
    {
        Json body{{"type", event.type}, {"elements", event.elements}};
        putText(body, "why", event.why);
        putId(body, "of", event.of);
        return body;
    }

    Json operator()(const TankPut& event) const
    {
        Json body{{"tank", tankJson(event.tank)}};
        putText(body, "plate", event.plate);
        return body;
    }

    Json operator()(const CartPut& event) const
    {
        Json body{{"cart", cartJson(event.cart)}, {"stages", Json::array()}};
        for (const StageRecord& stage : event.stages) {
            body["stages"].push_back(stageJson(stage));
        }
        return body;
    }

    Json operator()(const PersonPut& event) const
    {
        const PersonRecord& person = event.person;
        Json body{{"person", toText(person.id)}};
        putSymbol(body, "pressure", person.pressure);
        putSymbol(body, "volume", person.volume);
        putSymbol(body, "temperature", person.temperature);
        putText(body, "language", person.language);
        putText(body, "theme", person.theme);
        body["left_handed"] = person.isLeftHanded;
        if (person.textPercent != PersonRecord{}.textPercent) {
            body["text_percent"] = person.textPercent;
        }
        if (person.isStill) {
            body["still"] = true;
        }
        return body;
    }

    Json operator()(const CheckAnswered& event) const { return checkJson(event); }

    Json operator()(const AttachmentAdded& event) const
    {
        Json body = {{"kind", nameOf(event.kind)}};
        putId(body, "of", event.of);
        body["hash"] = event.hash;
        body["bytes"] = event.bytes;
        body["media_type"] = event.mediaType;
        putText(body, "caption", event.caption);
        return body;
    }

    Json operator()(const AttachmentWithdrawn& event) const { return {{"of", toText(event.of)}, {"why", event.why}}; }
    Json operator()(const FluidPut& event) const { return {{"name", event.name}, {"fluid", fluidJson(event.fluid)}}; }
    Json operator()(const ElementTypePut& event) const { return {{"stage", stageJson(event.stage)}}; }

    Json operator()(const JobPut& event) const
    {
        const JobRecord& job = event.job;
        Json body{{"order", job.order}, {"tank", job.tank}};
        putText(body, "cart", job.cart);
        putText(body, "reason", job.reason);
        putText(body, "turnovers", job.turnovers ? job.turnovers->toText() : std::string());
        putText(body, "target_code", job.code);
        putText(body, "target_source", job.source);
        putText(body, "due", job.due);
        putText(body, "elements", job.elements ? job.elements->toText() : std::string());
        return body;
    }

    Json operator()(const RecordServiced& event) const
    {
        Json body{{"record", event.kind}, {"name", event.name}, {"in_service", event.isInService}};
        putText(body, "why", event.why);
        return body;
    }

    Json operator()(const StartTold& event) const
    {
        Json body = Json::object();
        putText(body, "verdict", event.verdict);
        putText(body, "limiting", event.limiting);
        put(body, "oil", event.oil);
        put(body, "flow", event.flow);
        putText(body, "by", event.by);
        putText(body, "why", event.why);
        return body;
    }

    Json operator()(const WasteTransferred& event) const
    {
        Json body = {{"volume", event.volume.toText()}};
        putText(body, "container", event.container);
        put(body, "capacity", event.capacity);
        put(body, "holds", event.holds);
        putText(body, "stream", event.stream);
        return body;
    }

    Json operator()(const Kept& event) const { return {{"what", event.what}, {"details", event.details}}; }

    Json operator()(const FlushOpened& event) const
    {
        Json body = {{"cart", event.cart}};
        putText(body, "from_fluid", event.fromFluid);
        putText(body, "to_fluid", event.toFluid);
        putText(body, "to_family", event.toFamily);
        body["left"] = event.left.toText();
        put(body, "batch", event.batch);
        put(body, "wanted", event.wanted);
        putText(body, "approver", event.approver);
        return body;
    }

    Json operator()(const TransferOpened& event) const
    {
        Json body = {{"tank", event.tank}, {"cart", event.cart}};
        putText(body, "fluid", event.fluid);
        putText(body, "family", event.family);
        putText(body, "container", event.container);
        body["capacity"] = event.capacity.toText();
        put(body, "holds", event.holds);
        body["planned"] = event.planned.toText();
        put(body, "flow", event.flow);
        if (event.valve) {
            body["valve"] = nameOf(*event.valve);
        }
        putText(body, "stream", event.stream);
        putText(body, "confirmed", event.confirmed);
        if (!event.checks.empty()) {
            body["checks"] = Json::array();
            std::ranges::transform(event.checks, std::back_inserter(body["checks"]), checkJson);
        }
        return body;
    }

    Json operator()(const FlushBatch& event) const { return {{"volume", event.volume.toText()}}; }

    Json operator()(const FlushClosed& event) const
    {
        Json body = {{"elements_renewed", event.elementsRenewed}};
        putText(body, "note", event.note);
        return body;
    }

    Json operator()(const TransferStopped& event) const
    {
        Json body = Json::object();
        put(body, "moved", event.moved);
        putText(body, "note", event.note);
        return body;
    }

    Json operator()(const RunOpened& event) const
    {
        Json body = setupJson(event.setup);
        for (const LoadingLearned& learned : event.learned) {
            body["learned"].push_back(learnedJson(learned));
        }
        if (const Json place = placeJson(event.place); !place.empty()) {
            body["place"] = place;
        }
        return body;
    }

    Json operator()(const LoadingLearned& event) const { return learnedJson(event); }

    Json operator()(const RunClosed& event) const
    {
        const auto& band = event.turnovers;
        return {{"ending", nameOf(event.ending)},
                {"why", event.why},
                {"turnovers", {{"low", band.low}, {"best", band.best}, {"high", band.high}}},
                {"filtered_l", event.filtered_l}};
    }

    Json operator()(const AlertRaised& event) const
    {
        Json body = alertJson(event.alert, event.stage);
        body["ground"] = event.ground.isNone() ? Json() : Json(toText(event.ground));
        body["told"] = Json::object();
        for (const auto& [name, value] : event.told) {
            body["told"][name] = value;
        }
        return body;
    }

    Json operator()(const AlertCleared& event) const { return alertJson(event.alert, event.stage); }
    Json operator()(const ClockJumped& event) const { return {{"by_ms", event.byMs}}; }
    Json operator()(const TabletSlept& event) const { return {{"for_ms", event.forMs}}; }

    Json operator()(const ClockOffsetChanged& event) const
    {
        return {{"from_min", event.fromMin}, {"to_min", event.toMin}};
    }

    Json operator()(const TabletRestarted& event) const { return {{"by_ms", event.byMs}, {"sure_ms", event.sureMs}}; }
};

Id readId(const JsonReader& id)
{
    return id.orRefuse(idFromText(id.text()));
}

std::optional<int> readStageNumber(const JsonReader& object)
{
    return object.ifThere("stage", [](const JsonReader& stage) { return stage.integer(1, 99); });
}

std::vector<std::optional<GaugeTyped>> readGaugeList(const JsonReader& gauges)
{
    std::vector<std::optional<GaugeTyped>> list;
    for (const JsonReader& gauge : gauges.items()) {
        if (gauge.isNull()) {
            list.emplace_back(std::nullopt);
        } else if (gauge.isObject()) {
            gauge.onlyKeys({"min", "max"});
            const GaugeTyped swing{gauge.at("min").decimal(), gauge.at("max").decimal()};
            if (*swing.high < swing.low) {
                gauge.refuse("a needle swings from the lower value to the higher, not from " + swing.low.toText()
                             + " to " + swing.high->toText());
            }
            list.emplace_back(swing);
        } else {
            list.emplace_back(GaugeTyped{gauge.decimal(), std::nullopt});
        }
    }
    return list;
}

RunTime readMinutesOrDuration(const JsonReader& length)
{
    constexpr double most = 1e9;
    const double minutes = length.isNumber() ? length.decimal().toDouble()
                                             : length.quantity<units::Duration>().value().in(units::minute);
    if (std::abs(minutes) > most) {
        length.refuse("nobody waits that long");
    }
    return RunTime{std::llround(minutes * 60000.0)};
}

std::int64_t readMilliseconds(const JsonReader& length)
{
    const std::string& digits = length.value().text;
    std::int64_t ms = 0;
    const auto [rest, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), ms);
    if (!length.isNumber() || problem != std::errc{} || rest != digits.data() + digits.size()) {
        length.refuse("a whole number of milliseconds is expected here");
    }
    return ms;
}

int readOffset(const JsonReader& minutes)
{
    constexpr int most = 24 * 60; // no place is further from UTC
    return minutes.integer(-most, most);
}

template<class Q>
const units::NamedUnit<Q>* symbolIfThere(const JsonReader& object, const char* key)
{
    const auto symbol = object.find(key);
    return symbol ? symbol->unit<Q>() : nullptr;
}

std::string readNote(const JsonReader& note)
{
    std::string text = note.text();
    if (text.size() > noteBytesMax) {
        note.refuse("a note has at most " + std::to_string(noteBytesMax) + " bytes");
    }
    return text;
}

/// A set-up, beside which stands what the run may learn from.
RunOpened readOpened(const JsonReader& body)
{
    RunOpened opened{readSetup(body)};
    if (const auto learned = body.find("learned")) {
        for (const JsonReader& one : learned->items()) {
            opened.learned.push_back(readLearned(one));
        }
    }
    opened.place = body.ifThere("place", readPlace).value_or(run::PlaceLearned{});
    return opened;
}

RunClosed readClosed(const JsonReader& body)
{
    const JsonReader band = body.at("turnovers");
    return {readEnding(body.at("ending")),
            body.textOr("why"),
            {band.at("low").real(), band.at("best").real(), band.at("high").real()},
            body.at("filtered_l").real()};
}

AlertRaised readRaised(const JsonReader& body)
{
    AlertRaised raised{readAlertId(body.at("alert")), readStageNumber(body), {}, {}};
    raised.ground = body.ifThere("ground", readId).value_or(Id{});
    const JsonReader told = body.at("told");
    for (const auto& [name, value] : told.value().members) {
        raised.told.emplace_back(name, JsonReader(value, told.place() + "." + name).text());
    }
    return raised;
}

AlertAcknowledged readAcknowledged(const JsonReader& body)
{
    const AlertShelved read = readAlertAnswer(body);
    return {read.alert, read.stage, read.why};
}

StockMoved readStockMove(const JsonReader& body)
{
    constexpr int most = 100'000;
    return {body.at("type").text(), body.at("elements").integer(-most, most), body.textOr("why"),
            body.ifThere("of", readId).value_or(Id{})};
}

CartPut readCartPut(const JsonReader& body)
{
    const auto stages = body.at("stages").items();
    CartPut put{readCart(body.at("cart"), stages.size()), {}};
    for (const JsonReader& stage : stages) {
        put.stages.push_back(readStage(stage));
    }
    return put;
}

JobPut readJobPut(const JsonReader& body)
{
    JobRecord job{.order = body.at("order").text(),
                  .tank = body.at("tank").text(),
                  .cart = body.textOr("cart"),
                  .reason = body.textOr("reason"),
                  .turnovers = body.decimalIfThere("turnovers"),
                  .code = body.textOr("target_code"),
                  .source = body.textOr("target_source"),
                  .due = body.textOr("due"),
                  .elements = body.decimalIfThere("elements")};
    if (const auto fault = run::faultIn(job)) {
        body.at(fault->place).refuse(fault->sentence);
    }
    return {std::move(job)};
}

PersonPut readPersonPut(const JsonReader& body)
{
    const auto textPercent = body.find("text_percent");
    const auto still = body.find("still");
    return {{.id = readId(body.at("person")),
             .pressure = symbolIfThere<units::Pressure>(body, "pressure"),
             .volume = symbolIfThere<units::Volume>(body, "volume"),
             .temperature = symbolIfThere<units::Temperature>(body, "temperature"),
             .language = body.textOr("language"),
             .theme = body.textOr("theme"),
             .isLeftHanded = body.at("left_handed").boolean(),
             .textPercent = textPercent ? textPercent->integer(100, 200) : PersonRecord{}.textPercent,
             .isStill = still && still->boolean()}};
}

AttachmentAdded readAttachment(const JsonReader& body)
{
    const JsonReader kind = body.at("kind");
    const auto known = attachmentKindNamed(kind.text());
    if (!known) {
        kind.refuse("\"" + quotable(kind.text()) + "\" is no attachment; known are photo, drawing, sound, document");
    }
    const JsonReader hash = body.at("hash");
    if (!isAttachmentHash(hash.text())) {
        hash.refuse("an attachment is named by the 64 hexadecimal digits of its hash");
    }
    return {*known,
            body.ifThere("of", readId).value_or(Id{}),
            hash.text(),
            body.at("bytes").integer(0, std::numeric_limits<int>::max()),
            body.at("media_type").text(),
            body.textOr("caption")};
}

constexpr std::size_t anyPort = 99; // port numbers in a body were checked when they were logged

FlushOpened readFlush(const JsonReader& body)
{
    return {body.at("cart").text(),
            body.textOr("from_fluid"),
            body.textOr("to_fluid"),
            body.textOr("to_family"),
            body.at("left").quantity<units::Volume>(),
            body.quantityIfThere<units::Volume>("batch"),
            body.quantityIfThere<units::Fraction>("wanted"),
            body.textOr("approver")};
}

CheckAnswered readCheck(const JsonReader& body)
{
    const auto asked = body.find("asked");
    return {body.at("check").text(), body.at("say").text(), body.textOr("why"), asked && asked->boolean()};
}

std::vector<CheckAnswered> readChecks(const JsonReader& body)
{
    std::vector<CheckAnswered> checks;
    if (const auto told = body.find("checks")) {
        std::ranges::transform(told->items(), std::back_inserter(checks), readCheck);
    }
    return checks;
}

TransferOpened readTransferOpened(const JsonReader& body)
{
    return {body.at("tank").text(),
            body.at("cart").text(),
            body.textOr("fluid"),
            body.textOr("family"),
            body.textOr("container"),
            body.at("capacity").quantity<units::Volume>(),
            body.quantityIfThere<units::Volume>("holds"),
            body.at("planned").quantity<units::Volume>(),
            body.quantityIfThere<units::Flow>("flow"),
            body.ifThere("valve", readMode),
            body.textOr("stream"),
            body.textOr("confirmed"),
            readChecks(body)};
}

struct Kind
{
    std::string_view name;
    Event (*read)(const JsonReader&);
};

/// In the order of run::Event.
const std::array<Kind, std::variant_size_v<EventKinds>> kinds = {{
    {"mode-changed",
     [](const JsonReader& b) -> Event {
         return ModeChanged{readMode(b.at("mode")), b.quantityIfThere<units::Flow>("flow")};
     }},
    {"reading-logged", [](const JsonReader& b) -> Event { return readReading(b); }},
    {"signs-seen", [](const JsonReader& b) -> Event { return readSigns(b.at("seen")); }},
    {"noted",
     [](const JsonReader& b) -> Event { return Noted{b.at("note").text(), b.ifThere("of", readId).value_or(Id{})}; }},
    {"question-answered", [](const JsonReader& b) -> Event { return readAnswer(b, readId); }},
    {"amended", [](const JsonReader& b) -> Event { return readAmendment(b, readId); }},
    {"elements-changed", [](const JsonReader& b) -> Event { return readChangeover(b); }},
    {"sample-drawn", [](const JsonReader& b) -> Event { return readSample(b, anyPort); }},
    {"result-entered", [](const JsonReader& b) -> Event { return readResult(b); }},
    {"alert-acknowledged", [](const JsonReader& b) -> Event { return readAcknowledged(b); }},
    {"alert-shelved", [](const JsonReader& b) -> Event { return readAlertAnswer(b); }},
    {"alert-serviced", [](const JsonReader& b) -> Event { return readServiced(b); }},
    {"run-moved", [](const JsonReader& b) -> Event { return RunMoved{readTank(b.at("tank")), b.at("why").text()}; }},
    {"check-answered", [](const JsonReader& b) -> Event { return readCheck(b); }},
    {"attachment-added", [](const JsonReader& b) -> Event { return readAttachment(b); }},
    {"attachment-withdrawn",
     [](const JsonReader& b) -> Event { return AttachmentWithdrawn{readId(b.at("of")), b.at("why").text()}; }},
    {"start-told", [](const JsonReader& b) -> Event { return readStartTold(b); }},
    {"waste-transferred", [](const JsonReader& b) -> Event { return readWasteTransfer(b); }},
    {"kept", [](const JsonReader& b) -> Event { return Kept{b.at("what").text(), b.at("details").text()}; }},
    {"flush-opened", [](const JsonReader& b) -> Event { return readFlush(b); }},
    {"transfer-opened", [](const JsonReader& b) -> Event { return readTransferOpened(b); }},
    {"flush-batch", [](const JsonReader& b) -> Event { return FlushBatch{b.at("volume").quantity<units::Volume>()}; }},
    {"flush-closed",
     [](const JsonReader& b) -> Event { return FlushClosed{b.at("elements_renewed").boolean(), b.textOr("note")}; }},
    {"transfer-stopped",
     [](const JsonReader& b) -> Event {
         return TransferStopped{b.quantityIfThere<units::Volume>("moved"), b.textOr("note")};
     }},
    {"run-opened", [](const JsonReader& b) -> Event { return readOpened(b); }},
    {"run-closed", [](const JsonReader& b) -> Event { return readClosed(b); }},
    {"alert-raised", [](const JsonReader& b) -> Event { return readRaised(b); }},
    {"alert-cleared",
     [](const JsonReader& b) -> Event { return AlertCleared{readAlertId(b.at("alert")), readStageNumber(b)}; }},
    {"clock-jumped", [](const JsonReader& b) -> Event { return ClockJumped{readMilliseconds(b.at("by_ms"))}; }},
    {"clock-offset-changed",
     [](const JsonReader& b) -> Event {
         return ClockOffsetChanged{readOffset(b.at("from_min")), readOffset(b.at("to_min"))};
     }},
    {"tablet-restarted",
     [](const JsonReader& b) -> Event {
         return TabletRestarted{readMilliseconds(b.at("by_ms")), readMilliseconds(b.at("sure_ms"))};
     }},
    {"tablet-slept", [](const JsonReader& b) -> Event { return TabletSlept{readMilliseconds(b.at("for_ms"))}; }},
    {"loading-learned", [](const JsonReader& b) -> Event { return readLearned(b); }},
    {"stock-moved", [](const JsonReader& b) -> Event { return readStockMove(b); }},
    {"tank-put", [](const JsonReader& b) -> Event { return TankPut{readTank(b.at("tank")), b.textOr("plate")}; }},
    {"cart-put", [](const JsonReader& b) -> Event { return readCartPut(b); }},
    {"person-put", [](const JsonReader& b) -> Event { return readPersonPut(b); }},
    {"fluid-put", [](const JsonReader& b) -> Event { return FluidPut{b.at("name").text(), readFluid(b.at("fluid"))}; }},
    {"element-type-put", [](const JsonReader& b) -> Event { return ElementTypePut{readStage(b.at("stage"))}; }},
    {"job-put", [](const JsonReader& b) -> Event { return readJobPut(b); }},
    {"record-serviced",
     [](const JsonReader& b) -> Event {
         return RecordServiced{b.at("record").text(), b.at("name").text(), b.at("in_service").boolean(),
                               b.textOr("why")};
     }},
}};

} // namespace

std::string_view kindOf(const Event& event)
{
    return kinds[event.index()].name;
}

std::string bodyOf(const Event& event)
{
    // Bytes that are not UTF-8 are replaced: what was written then differs from what was said, which the logbook finds.
    return std::visit(Writer{}, event).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<Event> eventFrom(std::string_view kind, std::string_view body)
{
    const auto known = std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.name == kind; });
    if (known == kinds.end()) {
        return fail(Errc::Incompatible, "an entry of the kind \"" + quotable(kind) + "\" comes from a newer version");
    }
    return readJson(body, known->read);
}

ReadingLogged readReading(const JsonReader& object)
{
    return {readGaugeList(object.at("gauges")), symbolIfThere<units::Pressure>(object, "unit"),
            object.quantityIfThere<units::Temperature>("oil"), object.quantityIfThere<units::Flow>("flow")};
}

SignsSeen readSigns(const JsonReader& signs)
{
    constexpr std::array<std::string_view, 5> known = {"foam", "haze", "whine", "clicking", "leak"};
    SignsSeen seen;
    for (const JsonReader& sign : signs.items()) {
        seen.signs.push_back(sign.text());
        if (std::find(known.begin(), known.end(), seen.signs.back()) == known.end()) {
            sign.refuse("\"" + quotable(seen.signs.back())
                        + "\" is not a sign; known are foam, haze, whine, clicking, leak");
        }
    }
    return seen;
}

Mode readMode(const JsonReader& mode)
{
    const auto known = modeNamed(mode.text());
    if (!known) {
        mode.refuse("\"" + quotable(mode.text()) + "\" is not a mode; known are stopped, bypassing, filtering");
    }
    return *known;
}

AlertId readAlertId(const JsonReader& alert)
{
    const auto known = alertNamed(alert.text());
    if (!known) {
        alert.refuse("there is no alert \"" + quotable(alert.text()) + "\"");
    }
    return *known;
}

Ending readEnding(const JsonReader& ending)
{
    std::string name = ending.text();
    std::replace(name.begin(), name.end(), ' ', '-'); // "stopped early" is what a person writes
    const auto known = endingNamed(name);
    if (!known) {
        ending.refuse("\"" + quotable(ending.text())
                      + "\" is not an ending; known are target-met, target-met-code-awaited, stopped-early, abandoned");
    }
    return *known;
}

ElementsChanged readChangeover(const JsonReader& changeover)
{
    changeover.onlyKeys({"stage", "elements", "type"});
    return {changeover.at("stage").integer(1, 99), changeover.at("elements").integer(1, 99), changeover.textOr("type")};
}

SampleDrawn readSample(const JsonReader& sample, std::size_t gauges)
{
    SampleDrawn drawn{sample.at("id").text(), readPort(sample.at("port"), gauges), sample.textOr("point"),
                      sample.textOr("machine")};
    if (!drawn.machine.empty() && drawn.machine != "running" && drawn.machine != "idle") {
        sample.at("machine").refuse("the machine is running or idle, not \"" + quotable(drawn.machine) + "\"");
    }
    drawn.oil = sample.quantityIfThere<units::Temperature>("oil");
    drawn.purged = sample.quantityIfThere<units::Volume>("purged");
    constexpr int longest = 24 * 3600;
    drawn.purgedS = sample.ifThere("purged_s",
                                   [](const JsonReader& s) -> std::int64_t { return s.integer(0, longest); });
    return drawn;
}

ResultEntered readResult(const JsonReader& result)
{
    result.onlyKeys({"sample", "code", "counts_per_ml", "water", "viscosity", "acid", "method", "counted", "report"});
    ResultEntered entered{
        result.at("sample").text(), result.textOr("code"), {}, result.textOr("water"), result.textOr("viscosity")};
    entered.acid = result.textOr("acid");
    entered.method = result.textOr("method");
    entered.counted = result.quantityIfThere<units::Volume>("counted");
    entered.report = result.textOr("report");
    if (const auto counts = result.find("counts_per_ml")) {
        for (const JsonReader& count : counts->items()) {
            entered.countsPerMl.push_back(count.decimal());
            if (entered.countsPerMl.back() < Decimal(0, 0)) {
                count.refuse("a count cannot be negative");
            }
        }
    }
    return entered;
}

QuestionAnswered readAnswer(const JsonReader& answer, const EntryFinder& find)
{
    answer.onlyKeys({"question", "of", "say", "minutes"});
    return {answer.at("question").text(), find(answer.at("of")), answer.at("say").text(),
            answer.decimalIfThere("minutes")};
}

Amended readAmendment(const JsonReader& amendment, const EntryFinder& find)
{
    amendment.onlyKeys({"of", "set", "why"});
    const JsonReader set = amendment.at("set");
    set.onlyKeys({"gauges", "unit", "oil", "flow", "mode", "elements", "note", "struck"});
    Amended amended;
    amended.of = find(amendment.at("of"));
    amended.gauges = set.ifThere("gauges", readGaugeList).value_or(std::vector<std::optional<GaugeTyped>>{});
    amended.unit = symbolIfThere<units::Pressure>(set, "unit");
    amended.oil = set.quantityIfThere<units::Temperature>("oil");
    amended.flow = set.quantityIfThere<units::Flow>("flow");
    amended.mode = set.ifThere("mode", readMode);
    amended.elements = set.ifThere("elements", [](const JsonReader& elements) { return elements.integer(1, 99); });
    amended.note = set.ifThere("note", readNote);
    amended.struck = set.ifThere("struck", [](const JsonReader& struck) { return struck.boolean(); }).value_or(false);
    amended.why = amendment.at("why").text();
    return amended;
}

StartTold readStartTold(const JsonReader& told)
{
    StartTold read{told.textOr("verdict"),
                   told.textOr("limiting"),
                   told.quantityIfThere<units::Temperature>("oil"),
                   told.quantityIfThere<units::Flow>("flow"),
                   told.textOr("by"),
                   told.textOr("why")};
    const bool isKnown = std::find(startVerdicts.begin(), startVerdicts.end(), read.verdict) != startVerdicts.end();
    if (!isKnown && !read.verdict.empty()) {
        told.at("verdict").refuse("\"" + quotable(read.verdict)
                                  + "\" is not a verdict; known are go, go-slower, warm, no-go, cannot-tell");
    }
    return read;
}

WasteTransferred readWasteTransfer(const JsonReader& transfer)
{
    transfer.onlyKeys({"volume", "container", "capacity", "holds", "stream"});
    return {transfer.at("volume").quantity<units::Volume>(), transfer.textOr("container"),
            transfer.quantityIfThere<units::Volume>("capacity"), transfer.quantityIfThere<units::Volume>("holds"),
            transfer.textOr("stream")};
}

AlertShelved readAlertAnswer(const JsonReader& answer)
{
    answer.onlyKeys({"alert", "stage", "why", "for"});
    return {readAlertId(answer.at("alert")), readStageNumber(answer), answer.textOr("why"),
            answer.ifThere("for", readMinutesOrDuration).value_or(RunTime{0})};
}

AlertServiced readServiced(const JsonReader& serviced)
{
    return {readAlertId(serviced.at("alert")), readStageNumber(serviced), serviced.at("in_service").boolean(),
            serviced.textOr("why")};
}

int readPort(const JsonReader& port, std::size_t gauges)
{
    const int last = static_cast<int>(gauges);
    if (port.isNumber()) {
        return port.integer(1, last);
    }
    const std::string name = port.text();
    if (name == "tank") {
        return 0;
    }
    if (name == "before") {
        return 1;
    }
    if (name == "after") {
        return last;
    }
    if (name == "between" && gauges == 3) {
        return 2;
    }
    port.refuse("\"" + quotable(name) + "\" is not a port; known are 1 to " + std::to_string(last)
                + ", tank, before, after" + (gauges == 3 ? ", between" : ""));
}

} // namespace loopside::ledger
