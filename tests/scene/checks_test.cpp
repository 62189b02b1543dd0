// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Each check is shown a screen that is in order, and one with the fault that it is there for.

#include "audit.h"
#include "clipping_check.h"
#include "contrast.h"
#include "reach_check.h"
#include "stage.h"
#include "target_check.h"

#include <QtQml/qqmlextensionplugin.h>

#include <catch2/catch.hpp>

using namespace loopside::scene;

namespace {

/// The sentences of `faults` in one, to look for a part.
std::string all(const Faults& faults)
{
    QString text;
    for (const Fault& fault : faults) {
        text += fault.item + QLatin1Char(' ') + fault.sentence + QLatin1Char('\n');
    }
    return text.toStdString();
}

using Catch::Matchers::Contains;

} // namespace

TEST_CASE("a key as large as a glove asks, apart from others, has no fault")
{
    const SmallStage stage(R"(
        BigKey { objectName: "one"; text: "One"; x: 20; y: 20 }
        BigKey { objectName: "two"; text: "Two"; x: 150; y: 20; height: Theme.touchSmall; width: Theme.touchSmall }
        Label { text: "Words"; x: 20; y: 200 })");
    const Shown shown = shownOn(stage.window());
    REQUIRE(shown.targets.size() == 2);
    REQUIRE(shown.letterings.size() == 3);
    CHECK(all(targetFaults(shown, lengthwise)).empty());
    CHECK(all(clippingFaults(shown, lengthwise)).empty());
    CHECK(all(namingFaults(shown)).empty());
    CHECK(all(keyboardFaults(stage.window(), shown)).empty());
    std::map<ColourPair, Seen> seen;
    CHECK(all(contrastFaults(seen, stage.window(), shown, QStringLiteral("day"), QStringLiteral("here"))).empty());
    CHECK(seen.size() == 2); // on the key and on the ground
}

TEST_CASE("a key that is too small, stands on another, too near, or outside is found")
{
    const SmallStage stage(R"(
        BigKey { objectName: "small"; text: "S"; x: 20; y: 20; width: 60; height: 60 }
        BigKey { objectName: "main"; isMain: true; text: "M"; x: 20; y: 300; height: Theme.touchSmall }
        BigKey { objectName: "below"; text: "B"; x: 400; y: 20 }
        BigKey { objectName: "above"; text: "A"; x: 500; y: 20 }
        BigKey { objectName: "near"; text: "N"; x: 624; y: 20 }
        BigKey { objectName: "outside"; text: "O"; x: 1200; y: 20 })");
    const std::string faults = all(targetFaults(shownOn(stage.window()), lengthwise));
    CHECK_THAT(faults, Contains("small is 10.2 mm × 10.2 mm")); // 60 px at 5.884 px/mm, computed
    CHECK_THAT(faults, Contains("main is 20.1 mm × 12.1 mm"));
    CHECK_THAT(faults, Contains("above stands on BigKey below"));
    CHECK_THAT(faults, Contains("near is 1.0 mm from BigKey above"));
    CHECK_THAT(faults, Contains("outside cannot be brought into sight whole"));
}

TEST_CASE("words that are cut, too long for their place, on others or too small are found")
{
    const SmallStage stage(R"(
        Label { text: "These words are longer than their box"; elide: Text.ElideRight; wrapMode: Text.NoWrap; width: 100 }
        Label { text: "Unwrapped and wide"; wrapMode: Text.NoWrap; width: 60; y: 60 }
        Rectangle { border.width: 2; color: "white"; height: 40; width: 80; y: 120
            Label { text: "Higher than its ground, for it wraps"; width: parent.width } }
        Label { text: "First"; x: 400; y: 20 }
        Label { text: "Second"; x: 410; y: 22 }
        Label { text: "Tiny"; font.pixelSize: 11; x: 400; y: 100 }
        Label { text: "Half outside"; x: 1240; y: 200; wrapMode: Text.NoWrap }
        BigKey { text: "Key"; x: 600; y: 20 }
        Label { text: "Across"; x: 610; y: 30 })");
    const std::string faults = all(clippingFaults(shownOn(stage.window()), lengthwise));
    CHECK_THAT(faults, Contains("is cut: These words"));
    CHECK_THAT(faults, Contains("is wider than its box"));
    CHECK_THAT(faults, Contains("goes over the edge of"));
    CHECK_THAT(faults, Contains("stands on other words: Second | First"));
    CHECK_THAT(faults, Contains("is small, 11 px: Tiny"));
    CHECK_THAT(faults, Contains("cannot be brought into sight whole: Half outside"));
    CHECK_THAT(faults, Contains("stands on BigKey: Across"));
}

TEST_CASE("on a page that scrolls, what no scrolling brings into sight is found, and what it brings is not")
{
    const SmallStage stage(R"(
        ScrollArea { height: 400; width: 600; contentHeight: 900
            BigKey { objectName: "low"; text: "L"; y: 700 }
            BigKey { objectName: "lost"; text: "X"; x: 150; y: 850 }
            BigKey { objectName: "aside"; text: "A"; x: 560 }
            Label { text: "Low words"; x: 300; y: 800 }
            Label { text: "Lost words"; x: 300; y: 895 } })");
    const Shown shown = shownOn(stage.window());
    const std::string targets = all(targetFaults(shown, lengthwise));
    CHECK_THAT(targets, Contains("lost cannot be brought"));
    CHECK_THAT(targets, Contains("aside cannot be brought"));
    CHECK_THAT(targets, !Contains("low cannot be brought"));
    const std::string words = all(clippingFaults(shown, lengthwise));
    CHECK_THAT(words, Contains("cannot be brought into sight whole: Lost words"));
    CHECK_THAT(words, !Contains("Low words"));
}

TEST_CASE("contrast is that of the guidelines")
{
    // 21:1 by definition; 4.48 and 4.54 are often told for these greys on white, from memory
    CHECK(contrastOf(Qt::black, Qt::white) == Approx(21.0));
    CHECK(contrastOf(QColor("#777777"), Qt::white) == Approx(4.48).margin(0.005));
    CHECK(contrastOf(Qt::white, QColor("#767676")) == Approx(4.54).margin(0.005));
}

TEST_CASE("words and edges that do not stand out are found, on what is truly under them")
{
    const SmallStage stage(R"(
        Rectangle { color: "#888888"; height: 100; width: 300
            Label { color: "#333333"; objectName: "grey"; text: "On grey" } }
        BigKey { objectName: "pale"; border.color: Theme.ground; color: Theme.ground; text: "P"; x: 400; y: 20 })");
    std::map<ColourPair, Seen> seen;
    const Shown shown = shownOn(stage.window());
    const std::string faults = all(
        contrastFaults(seen, stage.window(), shown, QStringLiteral("day"), QStringLiteral("here")));
    CHECK_THAT(faults, Contains("#333333 on #888888"));
    CHECK_THAT(faults, Contains("pale stands out by 1.0 only"));
    REQUIRE_FALSE(shown.letterings.empty());
    CHECK(shown.letterings.front().item->opacity() == 1.0); // hidden for the picture only
}

TEST_CASE("what has no name, is not reached or takes no key is found")
{
    const SmallStage stage(R"(
        BigKey { objectName: "nameless"; spoken: ""; sign: "now"; x: 20; y: 20 }
        Rectangle { objectName: "bare"; color: "white"; height: 118; width: 118; x: 200; y: 20
            TapHandler {} }
        Rectangle { objectName: "deaf"; activeFocusOnTab: true; color: "white"; height: 118; width: 118; x: 400; y: 20
            property bool repeats: false
            Accessible.name: "Deaf"; Accessible.role: Accessible.Button
            TapHandler {} }
        Text { text: "Unknown"; x: 20; y: 300 })");
    const Shown shown = shownOn(stage.window());
    const std::string names = all(namingFaults(shown));
    CHECK_THAT(names, Contains("nameless has no name"));
    CHECK_THAT(names, Contains("bare does not tell what it is"));
    CHECK_THAT(names, Contains("cannot be read out: Unknown"));
    const std::string keys = all(keyboardFaults(stage.window(), shown));
    CHECK_THAT(keys, Contains("bare is not reached by Tab"));
    CHECK_THAT(keys, Contains("deaf takes no Space"));
    CHECK_THAT(keys, Contains("deaf looks the same with the focus"));
}

TEST_CASE("what a sheet covers is not there, and Tab does not go there")
{
    const SmallStage stage(R"(
        BigKey { objectName: "covered"; text: "C"; x: 20; y: 20 }
        Sheet { title: "Over it"
            BigKey { objectName: "onSheet"; text: "S" } })");
    const Shown shown = shownOn(stage.window());
    REQUIRE(shown.targets.size() == 1);
    CHECK(shown.targets.front().item->objectName() == QStringLiteral("onSheet"));
    CHECK_THAT(all(keyboardFaults(stage.window(), shown)), Contains("covered is reached by Tab though it is covered"));
}
