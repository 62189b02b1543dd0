// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Every screen of the tour, in every language and in one of longer words, lengthwise and upright, with text at 100 %
// and at 200 %.

#include "audit.h"
#include "document.h"
#include "pseudo.h"
#include "stage.h"
#include "tables.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::scene;

namespace {

std::string told(const Found& found)
{
    return found.faults.join(QLatin1Char('\n')).toStdString();
}

Found checked(words::Words words, const std::string& language, const Wanted& wanted)
{
    theProgram();
    Found found = audit(std::move(words), language, wanted);
    CHECK(told(found).empty());
    CHECK(found.isPlayed);
    CHECK(found.scenes > 50);
    return found;
}

Found auditEnglish(const Wanted& wanted)
{
    return checked(words::Words::in("en").value(), "en", wanted);
}

void checkWords(words::Words words, const std::string& language, std::vector<Look> looks)
{
    Wanted wanted;
    wanted.looks = std::move(looks);
    wanted.clipping = wanted.targets = true;
    checked(std::move(words), language, wanted);
}

const std::vector<Look> plain = {{lengthwise, 1.0}, {upright, 1.0}};
const std::vector<Look> both = {{lengthwise, 1.0}, {upright, 1.0}, {lengthwise, 2.0}, {upright, 2.0}};

} // namespace

TEST_CASE("every screen in English: sizes and words, and the table of targets in docs/screens.md")
{
    Wanted wanted;
    wanted.looks = plain;
    wanted.looks.push_back({large, 1.0});
    wanted.clipping = wanted.targets = true;
    const Found found = auditEnglish(wanted);
    CHECK(tableIn(screensDocument(), "targets").value() == targetTable(found));
}

TEST_CASE("every screen in English: names, keyboard and colours, and the table of contrasts in docs/screens.md")
{
    Wanted wanted;
    wanted.looks = {{lengthwise, 1.0}};
    wanted.naming = wanted.keyboard = wanted.contrast = true;
    const Found found = auditEnglish(wanted);
    CHECK(tableIn(screensDocument(), "contrast").value() == contrastTable(found));
}

TEST_CASE("every screen in Spanish, with text at 100 and at 200 %")
{
    checkWords(words::Words::in("es").value(), "es", both);
}

TEST_CASE("every screen in German, with text at 100 and at 200 %")
{
    checkWords(words::Words::in("de").value(), "de", both);
}

TEST_CASE("every screen in English with text at 200 % and 130 %")
{
    checkWords(words::Words::in("en").value(), "en",
               {{lengthwise, 2.0}, {upright, 2.0}, {lengthwise, 1.3}, {upright, 1.3}});
}

TEST_CASE("every screen in a language of longer words")
{
    checkWords(pseudoWords(), "en", plain);
}
