// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/qml_rules.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

TEST_CASE("a colour written out in QML is found")
{
    const auto line = GENERATE(as<std::string>(), "color: \"#ff8800\"", "border.color: '#f80'", "x: \"#80ff8800\"",
                               "color: \"red\"", "selectionColor: \"steelblue\"",
                               "color: root.hot ? \"red\" : Theme.surface", "property color mark: \"green\"",
                               "color: Qt.rgba(1, 0, 0, 1)");
    CAPTURE(line);
    const Findings findings = checkColours({"qml/run/RunPage.qml", "Item {\n    " + line + "\n}\n"});
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].line == 2);
}

TEST_CASE("a colour by its role is let through, as is the theme itself")
{
    const auto line = GENERATE(as<std::string>(), "color: Theme.surface", "color: \"transparent\"",
                               "color: root.level === \"danger\" ? Theme.danger : Theme.surface", "// color: \"red\"",
                               "text: \"#12345\"", "text: \"red\"", "objectName: \"#abcdefg\"");
    CAPTURE(line);
    CHECK(checkColours({"qml/run/RunPage.qml", "Item {\n    " + line + "\n}\n"}).empty());
    CHECK(checkColours({"qml/Theme.qml", "color: \"#ff8800\"\n"}).empty());
    CHECK(checkColours({"src/app/x.cpp", "color: \"#ff8800\"\n"}).empty());
}

TEST_CASE("words written out in QML are found")
{
    const auto line = GENERATE(as<std::string>(), "text: \"Log reading\"", "title: root.isOpen ? \"Open\" : \"\"",
                               "Accessible.name: root.name + \" gauge\"", "spoken: \"Öl\"",
                               "property string moreText: \"More\"", "unitSpoken: \"psi \" + root.unit",
                               "text: root.app.label(\"label.unit\") + \" of the gauge\"");
    CAPTURE(line);
    const Findings findings = checkWrittenWords({"qml/run/RunPage.qml", "Item {\n    " + line + "\n}\n"});
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].line == 2);
}

TEST_CASE("ids of words, signs between them and the program's name are let through")
{
    const auto line = GENERATE(as<std::string>(), "text: root.app.label(\"label.log\")", "title: \"Loopside\"",
                               "text: root.tank + \" · \" + root.cart", "text: \"\"", "text: \"7\"", "hint: \"–\"",
                               "text: root.app.label(root.isOpen ? \"label.close\" : \"label.open\")",
                               "text: root.kind === \"stop\" ? root.why : root.what", "objectName: \"keyMain\"",
                               "sign: \"done\"", "// text: \"Log reading\"",
                               "text: root.app.label(\"label.theme-\" + root.app.theme)");
    CAPTURE(line);
    CHECK(checkWrittenWords({"qml/run/RunPage.qml", "Item {\n    " + line + "\n}\n"}).empty());
    CHECK(checkWrittenWords({"tests/qml/tst_x.qml", "text: \"Log reading\"\n"}).empty());
    CHECK(checkWrittenWords({"src/app/x.cpp", "text: \"Log reading\"\n"}).empty());
}

TEST_CASE("a word to the console in QML is found")
{
    CHECK(checkConsole({"qml/Main.qml", "Item {\n onX: console.log(\"x\")\n}\n"}).size() == 1);
    CHECK(checkConsole({"qml/Theme.qml", "function f() { console . warn(1) }\n"}).size() == 1);
}

TEST_CASE("what only looks like the console is let through")
{
    CHECK(checkConsole({"qml/Main.qml", "// console.log(1)\ntext: \"console.log(1)\"\n"}).empty());
    CHECK(checkConsole({"qml/Main.qml", "console.enabled: true\nmyconsole.log(1)\n"}).empty());
    CHECK(checkConsole({"src/app/x.cpp", "console.log(1);\n"}).empty());
}
