// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/oil_told.h"

#include "oil/fluid_family.h"

#include <catch2/catch.hpp>

using namespace loopside;
using words::oilText;
using words::Words;

TEST_CASE("an oil is told with the word for its kind")
{
    const Words german = Words::in("de").value();
    CHECK(oilText(german, "ISO VG 46 hydraulic") == "ISO VG 46 Hydraulik");
    CHECK(oilText(german, "46 cSt phosphate ester") == "46 cSt Phosphatester");
    CHECK(oilText(german, "gear") == "Getriebe");
    CHECK(oilText(Words::in("es").value(), "ISO VG 220 gear") == "ISO VG 220 engranajes");
    CHECK(oilText(Words::in("en").value(), "ISO VG 46 hydraulic") == "ISO VG 46 hydraulic");
}

TEST_CASE("a name that somebody gave to an oil stays as it is")
{
    const Words german = Words::in("de").value();
    const auto name = GENERATE("", "Northern gear", "ISO VG gear", "hydraulic 46", "ISO VG 46", "reclaimed ester");
    CHECK(oilText(german, name) == name);
}

TEST_CASE("an oil in a sentence follows its language, but not where it quotes what was typed")
{
    const Words german = Words::in("de").value();
    CHECK(german.say({"app.place.last-fluid", {{"fluid", "ISO VG 46 hydraulic"}}}).ends_with("ISO VG 46 Hydraulik"));
    const Words words = Words::of({{"suit.last", "{last}"}, {"question.last", "{last}"}, {"app.fluid-kind.gear", "G"}});
    CHECK(words.say({"suit.last", {{"last", "gear"}}}) == "G");
    CHECK(words.say({"question.last", {{"last", "gear"}}}) == "gear");
}

TEST_CASE("each kind with a word names a family")
{
    for (const words::OilKind& known : words::oilKinds()) {
        INFO(known.kind);
        CHECK(oil::familyOf(known.kind) != oil::FluidFamily::Unknown);
    }
}
