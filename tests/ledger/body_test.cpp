// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/body.h"

#include "ledger/some_setup.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Id someId()
{
    return {{1, 2, 3, 4, 5, 6, 0x71, 8, 0x91, 10, 11, 12, 13, 14, 15, 16}};
}

ReadingLogged reading()
{
    return {
        .gauges = {GaugeTyped{number("38.0"), std::nullopt}, std::nullopt, GaugeTyped{number("0.50"), number("1.25")}},
        .unit = units::unitNamed<units::Pressure>("bar").value(),
        .oil = typed<units::Temperature>("104.0 °F"),
        .flow = typed<units::Flow>("5.00 gpm")};
}

Amended amendment()
{
    return {.of = someId(),
            .gauges = reading().gauges,
            .unit = units::unitNamed<units::Pressure>("kPa").value(),
            .oil = typed<units::Temperature>("40 °C"),
            .flow = typed<units::Flow>("19 L/min"),
            .mode = Mode::Bypassing,
            .elements = 1,
            .note = "moved \"it\" to the other line\nand back",
            .struck = true,
            .why = "misread, ΔP was lower"};
}

PlaceLearned placeKnown()
{
    return {.mixing = MixingLearned{{0.25, 0.5, 0.75}, 0.7, 3},
            .ingress = {IngressLearned{{10.5, 20.25, 40.0}, 2}, std::nullopt, IngressLearned{{1e-3, 0.01, 0.5}, 1}},
            .clean = {CleanLearned{}, CleanLearned{filtration::Band{9'000.0, 12'000.5, 15'000.0}, 4}}};
}

/// At least one of every kind, with everything in it and with nothing that may be left out.
std::vector<Event> events()
{
    Amended strike;
    strike.of = someId();
    strike.why = "wrong cart";
    strike.struck = true;
    return {
        ModeChanged{Mode::Filtering, typed<units::Flow>("19.0 L/min")},
        ModeChanged{Mode::Stopped},
        ModeChanged{Mode::Bypassing},
        reading(),
        ReadingLogged{.gauges = {std::nullopt}},
        SignsSeen{{"foam", "leak"}},
        SignsSeen{},
        Noted{"Öl tropft, 3 drops/min \\ \t"},
        QuestionAnswered{"unwatched-gap", someId(), "part", number("12.5")},
        QuestionAnswered{"out-of-range", someId(), "yes", {}},
        amendment(),
        strike,
        ElementsChanged{2, 1, "10 µm glass"},
        ElementsChanged{1, 2, {}},
        SampleDrawn{"B2", 3},
        SampleDrawn{"B3", 0},
        SampleDrawn{"B4", 1, "drop tube, mid depth", "running", typed<units::Temperature>("41.5 C"),
                    typed<units::Volume>("160 mL"), 45},
        ResultEntered{"B2", "16/14/11", {number("161.0"), number("81"), number("21.25")}, "90 ppm", "46 cSt"},
        ResultEntered{"B2", {}, {}, {}, {}},
        ResultEntered{
            "B4", "14/12/≥7", {}, {}, {}, "0.12 mg KOH/g", "counter", typed<units::Volume>("10 mL"), "L-2211"},
        AlertAcknowledged{AlertId::StopNow, std::nullopt, {}},
        AlertAcknowledged{AlertId::StageAtLimit, 2, "seen"},
        AlertShelved{AlertId::StageNearLimit, 1, "elements on their way", std::chrono::minutes(15)},
        AlertShelved{AlertId::TargetCodeMet, std::nullopt, "later", RunTime{1'500}},
        AlertServiced{AlertId::StageNearLimit, 1, false, "gauge 2 is on its way"},
        AlertServiced{AlertId::ReadingOverdue, std::nullopt, true, {}},
        RunMoved{bareSetup().tank, "label read from memory"},
        StockMoved{"ten", -2, "changeover", someId()},
        StockMoved{"ten", 8, {}, {}},
        TankPut{bareSetup().tank, "BM-1"},
        TankPut{fullSetup().tank},
        CartPut{fullSetup().cart, fullSetup().stages},
        PersonPut{{someId(), *units::unitNamed<units::Pressure>("bar"), *units::unitNamed<units::Volume>("gal"),
                   *units::unitNamed<units::Temperature>("°F"), "de", "night", true, 160, true}},
        PersonPut{{.id = someId()}},
        FluidPut{"Turbine oil 46", fullSetup().tank.fluid},
        ElementTypePut{fullSetup().stages.front()},
        JobPut{{"WO-118", "Press 2", "Cart B", "code too high", *Decimal::parse("6.5"), "17/15/12", "oil laboratory",
                "2026-11-30", *Decimal::parse("4")}},
        JobPut{{.order = "WO-119", .tank = "Press 2"}},
        RecordServiced{"tank", "Winder gearbox", false, "dismantled"},
        RecordServiced{"cart", "Cart B", true, ""},
        CheckAnswered{"permit", "yes"},
        Noted{"needle bent", {.bytes = {7}}},
        AttachmentAdded{AttachmentKind::Document, {}, std::string(64, 'b'), 99, "application/pdf"},
        AttachmentAdded{AttachmentKind::Drawing, {.bytes = {7}}, std::string(64, 'a'), 1234, "image/png", "the pit"},
        AttachmentAdded{AttachmentKind::Sound, {}, std::string(64, 'b'), 300'000, "audio/ogg", {}},
        AttachmentWithdrawn{{.bytes = {9}}, "a face is on it"},
        CheckAnswered{"setup-vents", "skipped", "no access", true},
        StartTold{"no-go", "suction", typed<units::Temperature>("5.0 °C"), typed<units::Flow>("7.6 L/min"), "P. Ortiz",
                  "the line waits"},
        StartTold{.verdict = "go"},
        StartTold{.by = "P. Ortiz", .why = "the line waits"},
        WasteTransferred{typed<units::Volume>("160.0 L"), "drum 7", typed<units::Volume>("55 gal"),
                         typed<units::Volume>("60 L"), "used oil"},
        WasteTransferred{.volume = typed<units::Volume>("0.5 m³")},
        Kept{"fix", R"({"lat":52.5,"of":[1.50,2]})"},
        FlushOpened{"Grey cart", "ISO VG 220 gear", "ISO VG 46 hydraulic", "hydraulic", typed<units::Volume>("1.50 L"),
                    typed<units::Volume>("10 L"), typed<units::Fraction>("1.0 %"), "P. Ortiz"},
        FlushOpened{.cart = "Grey cart", .left = typed<units::Volume>("1.5 L")},
        TransferOpened{"SP-4", "Grey cart", "ISO VG 220 gear", "gear", "drum 7", typed<units::Volume>("205 L"),
                       typed<units::Volume>("60.0 L"), typed<units::Volume>("160 L"), typed<units::Flow>("19.0 L/min"),
                       Mode::Bypassing, "used oil", "SP-4"},
        TransferOpened{.tank = {},
                       .cart = "Grey cart",
                       .capacity = typed<units::Volume>("205 L"),
                       .planned = typed<units::Volume>("160 L")},
        FlushBatch{typed<units::Volume>("10.0 L")},
        FlushClosed{true, "drained, new elements"},
        FlushClosed{},
        TransferStopped{typed<units::Volume>("130 L"), "Fass 7 zu 93 %"},
        TransferStopped{},
        RunOpened{fullSetup()},
        RunOpened{bareSetup()},
        RunClosed{Ending::TargetMetCodeAwaited, "end of shift", {6.1, 7.0 / 3.0, 1e-7}, 2800.123456789},
        RunClosed{Ending::Abandoned, {}, {}, 0.0},
        AlertRaised{AlertId::StageAtLimit, 2, someId(), {{"drop", "42 psi"}, {"tank", "PH-3 \"old\""}}},
        AlertRaised{AlertId::ReadingOverdue, std::nullopt, {}, {}},
        AlertCleared{AlertId::TargetTurnoversMet, std::nullopt},
        AlertCleared{AlertId::StageNearLimit, 1},
        ClockJumped{-3'480'000},
        ClockJumped{9'007'199'254'740'993}, // more than a double holds
        ClockOffsetChanged{-300, 345},
        TabletRestarted{-86'400'000, 61'000},
        TabletSlept{754'000},
        LoadingLearned{2,
                       1,
                       "DB-2",
                       "G10",
                       "particle",
                       120'500.0,
                       1234.5,
                       9'000.0,
                       false,
                       true,
                       false,
                       {{0.25, 8'000.5}, {900, 3e4}}},
        LoadingLearned{.stage = 1, .number = 3, .isCutShort = true, .isWithdrawn = true},
        RunOpened{bareSetup(), {LoadingLearned{.tank = "DB-2", .curve = {{1.0, 2.0}}}}},
        RunOpened{bareSetup(), {}, placeKnown()},
        RunOpened{bareSetup(), {}, PlaceLearned{.mixing = MixingLearned{{0.25, 0.5, 0.75}, 0.7, 3}}},
    };
}

std::string refusalOf(std::string_view kind, std::string_view body)
{
    const auto event = eventFrom(kind, body);
    return event ? "" : event.error().sentence;
}

} // namespace

TEST_CASE("every kind of event comes back from its body as it went in")
{
    std::set<std::size_t> kinds;
    for (const Event& event : events()) {
        const std::string body = bodyOf(event);
        CAPTURE(kindOf(event), body);
        kinds.insert(event.index());
        const auto read = eventFrom(kindOf(event), body);
        if (!read) {
            FAIL_CHECK(read.error().sentence);
            continue;
        }
        CHECK(*read == event);
        CHECK(bodyOf(*read) == body); // a Decimal equals one with more digits; the bytes do not
    }
    CHECK(kinds.size() == std::variant_size_v<EventKinds>);
}

TEST_CASE("no two kinds of event have one name")
{
    std::set<std::string_view> names;
    std::set<std::size_t> kinds;
    for (const Event& event : events()) {
        names.insert(kindOf(event));
        kinds.insert(event.index());
    }
    CHECK(names.size() == kinds.size());
}

TEST_CASE("what was known of a place is refused where its numbers cannot be")
{
    std::string body = bodyOf(RunOpened{bareSetup(), {}, placeKnown()});
    const auto with = [&](const std::string& was, const std::string& is) {
        const auto at = body.find(was);
        REQUIRE(at != std::string::npos);
        return refusalOf("run-opened", std::string(body).replace(at, was.size(), is));
    };
    CHECK_THAT(with("\"low\":0.25", "\"low\":0.6"), Catch::Contains("rise"));
    CHECK_THAT(with("\"low\":0.25", "\"low\":0"), Catch::Contains("above 0"));
    CHECK_THAT(with("\"runs\":3", "\"runs\":0"), Catch::Contains("place.mixing.runs"));
    CHECK_THAT(with(",null,", ","), Catch::Contains("three sizes"));
    CHECK_THAT(with("\"sets\":4", "\"sets\":\"four\""), Catch::Contains("sets"));
}

TEST_CASE("typed digits and units stay as they were typed")
{
    const std::string body = bodyOf(reading());
    CHECK_THAT(body, Catch::Contains("\"38.0\"") && Catch::Contains("\"0.50\"") && Catch::Contains("\"1.25\""));
    CHECK_THAT(body, Catch::Contains("\"unit\":\"bar\"") && Catch::Contains("5.00 gpm") && Catch::Contains("104.0 °F"));
    const auto read = eventFrom("reading-logged", body);
    REQUIRE(read.has_value());
    const auto& logged = std::get<ReadingLogged>(*read);
    CHECK(logged.gauges[0]->low.toText() == "38.0");
    CHECK(logged.flow->toText() == "5.00 gpm");
}

TEST_CASE("a body that does not fit its kind is malformed, and says where")
{
    const auto [kind, body, place] = GENERATE(table<std::string, std::string, std::string>({
        {"mode-changed", R"({})", "\"mode\" is missing"},
        {"mode-changed", R"({"mode":"idling"})", "mode: \"idling\" is not a mode"},
        {"mode-changed", R"({"mode":"filtering","flow":"19 psi"})", "flow: "},
        {"mode-changed", R"([])", "an object in { } is expected here"},
        {"mode-changed", R"({"mode":"filtering")", "line 1, column 19: the text ends too early"},
        {"mode-changed", "", "the text ends too early"},
        {"reading-logged", R"({"gauges":[1,"x"]})", "gauges[1]: \"x\" is not a number"},
        {"reading-logged", R"({"gauges":[1,true]})", "gauges[1]: a number is expected here"},
        {"reading-logged", R"({"gauges":[{"min":3,"max":2}]})", "gauges[0]: a needle swings from the lower"},
        {"reading-logged", R"({"gauges":[{"min":3}]})", "gauges[0]: \"max\" is missing"},
        {"reading-logged", R"({"gauges":[],"unit":"furlong"})", "unit: "},
        {"signs-seen", R"({"seen":["ghosts"]})", "seen[0]: \"ghosts\" is not a sign"},
        {"question-answered", R"({"question":"jump","of":"no id","say":"yes"})", "of: "},
        {"elements-changed", R"({"stage":0,"elements":2})", "stage: a whole number from 1 to 99"},
        {"elements-changed", R"({"stage":1.5,"elements":2})", "stage: a whole number from 1 to 99"},
        {"alert-shelved", R"({"alert":"stage-at-limit","why":"w","for":"1e9 h"})", "for: "},
        {"alert-shelved", R"({"alert":"stage-at-limit","why":"w","for":"999999999999 h"})", "for: nobody waits"},
        {"alert-raised", R"({"alert":"who-knows","ground":null,"told":{}})", "alert: there is no alert"},
        {"alert-raised", R"({"alert":"stop-now","ground":null,"told":{"drop":42}})", "told.drop: a text in quotes"},
        {"run-closed", R"({"ending":"abandoned","why":"","turnovers":{"low":1,"best":null,"high":1},"filtered_l":1})",
         "turnovers: \"best\" is missing"},
        {"run-closed", R"({"ending":"sold","why":""})", "is missing"},
        {"clock-jumped", R"({"by_ms":1.5})", "by_ms: a whole number"},
        {"clock-offset-changed", R"({"from_min":60,"to_min":1500})", "to_min"},
        {"tablet-restarted", R"({"by_ms":60000})", "sure_ms"},
        {"tablet-slept", R"({"for_ms":"6"})", "for_ms: a whole number"},
        {"clock-jumped", R"({"by_ms":99999999999999999999})", "by_ms: a whole number"},
        {"run-opened", R"({"title":"t"})", "\"stages\" is missing"},
        {"noted", R"({"note":"a","note":"b"})", "stands twice"},
        {"person-put", R"({"person":"01890a5d-ac96-774b-bcce-b302099a8057","left_handed":false,"text_percent":99})",
         "text_percent: a whole number from 100 to 200"},
        {"attachment-added", R"({"kind":"photo","hash":"../journal.sqlite","bytes":9,"media_type":"image/png"})",
         "hash: an attachment is named by the 64 hexadecimal digits"},
        {"attachment-added",
         R"({"kind":"photo","hash":")" + std::string(63, 'a') + R"(","bytes":9,"media_type":"image/png"})",
         "hash: an attachment is named by the 64 hexadecimal digits"},
        {"attachment-added",
         R"({"kind":"photo","hash":")" + std::string(64, 'A') + R"(","bytes":9,"media_type":"image/png"})",
         "hash: an attachment is named by the 64 hexadecimal digits"},
        {"start-told", R"({"verdict":"perhaps"})", "verdict: \"perhaps\" is not a verdict"},
        {"start-told", R"({"verdict":"go","oil":"5 psi"})", "oil: "},
        {"waste-transferred", R"({"container":"drum 7"})", "\"volume\" is missing"},
        {"waste-transferred", R"({"volume":"160 L","drum":"7"})", "\"drum\" is not a field here"},
        {"flush-opened", R"({"cart":"C1"})", "\"left\" is missing"},
        {"flush-opened", R"({"cart":"C1","left":"1.5 L","wanted":"1 L"})", "wanted: "},
        {"transfer-opened", R"({"tank":"T","cart":"C1","capacity":"205 L"})", "\"planned\" is missing"},
        {"transfer-opened", R"({"tank":"T","cart":"C1","capacity":"205 L","planned":"9 L","valve":"shut"})",
         "valve: \"shut\" is not a mode"},
        {"flush-batch", R"({"volume":10})", "volume: a text in quotes"},
        {"flush-closed", R"({})", "\"elements_renewed\" is missing"},
        {"transfer-stopped", R"({"moved":"a lot"})", "moved: "},
    }));
    CAPTURE(kind, body);
    const auto event = eventFrom(kind, body);
    REQUIRE_FALSE(event.has_value());
    CHECK(event.error().code == Errc::Malformed);
    CHECK_THAT(event.error().sentence, Catch::Contains(place));
}

TEST_CASE("a kind that this version does not know comes from a newer one")
{
    const auto event = eventFrom("pump-oiled", "{}");
    REQUIRE_FALSE(event.has_value());
    CHECK(event.error().code == Errc::Incompatible);
    CHECK_THAT(refusalOf("pump-oiled", "{}"), Catch::Contains("\"pump-oiled\""));
}

TEST_CASE("a body cut anywhere is refused or reads as what it then says, never crashes")
{
    for (const Event& event : events()) {
        const std::string body = bodyOf(event);
        for (std::size_t length = 0; length < body.size(); ++length) {
            CHECK_FALSE(eventFrom(kindOf(event), body.substr(0, length)).has_value());
        }
    }
}
