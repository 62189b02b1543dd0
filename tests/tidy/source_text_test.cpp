// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/source_text.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

TEST_CASE("comments become blanks and strings stay")
{
    CHECK(withoutComments("a // b\nc /* d\ne */ f") == "a     \nc     \n     f");
    CHECK(withoutComments("x = \"// no comment\"; // one") == "x = \"// no comment\";       ");
    CHECK(withoutComments("n = 4'000'000; // 4'") == "n = 4'000'000;      ");
    CHECK(withoutComments("c = '\"'; // q") == "c = '\"';     ");
    CHECK(withoutComments("r = R\"x(// \" )\" /* )x\"; // e") == "r = R\"x(// \" )\" /* )x\";     ");
}

TEST_CASE("the insides of strings become blanks on demand")
{
    CHECK(withoutCommentsAndStrings("f(\"a\\\"b\", 'c') // d") == "f(      ,    )     ");
    CHECK(withoutCommentsAndStrings("f(R\"(\n;)\");") == "f(   \n   );");
}

TEST_CASE("text that ends within a comment or a string is read to its end")
{
    const auto text = GENERATE(as<std::string>(), "/* a", "// a", "\"a", "'", "R\"x(a", "R\"", "\"a\\");
    CAPTURE(text);
    CHECK(withoutCommentsAndStrings(text).size() == text.size());
}

TEST_CASE("lines are counted from one, and a last line needs no end")
{
    CHECK(linesOf("a\n\nb") == std::vector<std::string>{"a", "", "b"});
    CHECK(linesOf("a\n") == std::vector<std::string>{"a"});
    CHECK(linesOf("").empty());
    CHECK(lineAt("a\nb\nc", 0) == 1);
    CHECK(lineAt("a\nb\nc", 4) == 3);
}
