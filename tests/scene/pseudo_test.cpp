// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "pseudo.h"

#include "words/words.h"

#include <catch2/catch.hpp>

using namespace loopside;

TEST_CASE("a sentence of no language is longer, accented and in brackets, and its values stay")
{
    CHECK(scene::pseudo("Log {field} of G1") == "[Lögö {field} öfö G1]");
    CHECK(scene::pseudo("") == "[]");
}

TEST_CASE("the catalogue of no language has every id and every value of the English one")
{
    const auto english = words::Words::in("en");
    REQUIRE(english);
    const words::Words pseudo = scene::pseudoWords();
    REQUIRE(pseudo.all().size() == english->all().size());
    for (const auto& [id, sentence] : english->all()) {
        CAPTURE(id);
        for (auto open = sentence.find('{'); open != std::string::npos; open = sentence.find('{', open + 1)) {
            const auto close = sentence.find('}', open);
            CHECK(pseudo.all().at(id).find(sentence.substr(open, close - open + 1)) != std::string::npos);
        }
    }
}
