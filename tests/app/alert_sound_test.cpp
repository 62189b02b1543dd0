// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_sound.h"

#include "app_bench.h"

#include <catch2/catch.hpp>

#include <string>

using namespace loopside;
using namespace loopside::test;

namespace {

/// Writes down what would be heard.
class HeardSound final : public app::Sound
{
public:
    void play(run::Priority priority) override { heard += std::string(run::nameOf(priority)) + " "; }
    void stop() override { heard += "stop "; }

    std::string heard;
};

} // namespace

TEST_CASE("a change limit sounds until somebody acknowledges it")
{
    AppBench bench;
    HeardSound sound;
    const app::AlertSound alerts(bench.tablet(), sound);
    CHECK(sound.heard.empty());
    bench.playScene(QStringLiteral("cold-oil"));
    CHECK(sound.heard == "medium ");
    bench.pass(30);
    CHECK(sound.heard == "medium "); // once told it goes round by itself
    bench.app()->alert()->because(0);
    CHECK(sound.heard == "medium stop ");
}

TEST_CASE("silence lasts as long as it was said to")
{
    AppBench bench;
    HeardSound sound;
    const app::AlertSound alerts(bench.tablet(), sound);
    bench.playScene(QStringLiteral("cold-oil"));
    bench.app()->alert()->silence();
    CHECK(sound.heard == "medium stop ");
    bench.pass(125);
    CHECK(sound.heard == "medium stop medium ");
}

TEST_CASE("a stage that nears its limit is heard once")
{
    AppBench bench;
    bench.playScene(QStringLiteral("cold-oil")); // opens a run on a cart with a limit of 35 psi for stage 2
    bench.app()->alert()->because(0);
    bench.pass(60);
    bench.tablet().say(setOf({30, 24, 5}, "30 C")); // 19 psi: returns
    HeardSound sound;
    const app::AlertSound alerts(bench.tablet(), sound);
    bench.pass(60);
    bench.tablet().say(setOf({41, 35, 5}, "30 C")); // 30 psi are 86 % of the limit
    CHECK(sound.heard == "low ");
    bench.pass(60);
    bench.tablet().say(setOf({41, 35, 5}, "30 C"));
    CHECK(sound.heard == "low ");
}

TEST_CASE("stop-now is heard over an overdue reading, which is heard again after it")
{
    AppBench bench;
    HeardSound sound;
    const app::AlertSound alerts(bench.tablet(), sound);
    bench.playScene(QStringLiteral("cold-oil"));
    bench.playScene(QStringLiteral("no-flow")); // takes 20 min, in which nobody reads the first cart
    CHECK(sound.heard.ends_with("medium high "));
    bench.app()->alert()->stopped();
    CHECK(sound.heard.ends_with("medium high medium "));
}

TEST_CASE("whoever takes the sound away leaves silence behind")
{
    AppBench bench;
    HeardSound sound;
    {
        const app::AlertSound alerts(bench.tablet(), sound);
        bench.playScene(QStringLiteral("cold-oil"));
    }
    CHECK(sound.heard == "medium stop ");
}
