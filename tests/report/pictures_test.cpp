// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/pictures.h"

#include "report/record.h"
#include "report/short_run.h"

using namespace loopside;
using namespace loopside::report;
using namespace loopside::test;

TEST_CASE("photos and drawings of a run are told in their order, sounds and what was withdrawn are not")
{
    ShortRun run;
    const auto attach = [&](run::AttachmentKind kind, char sign, const std::string& type) {
        return run.say(run::AttachmentAdded{kind, {}, std::string(64, sign), 45'000, type, std::string(1, sign)});
    };
    attach(run::AttachmentKind::Photo, 'a', "image/png");
    attach(run::AttachmentKind::Sound, 'b', "audio/wav");
    const Id gone = attach(run::AttachmentKind::Photo, 'c', "image/png");
    attach(run::AttachmentKind::Drawing, 'd', "image/png");
    run.say(run::AttachmentWithdrawn{gone, "a face is on it"});
    const auto state = runOf(run.evidence());
    REQUIRE(state);
    const auto pictures = picturesOf(words::Words::in("en").value(), *state,
                                     [](const Id& /*person*/) { return "Vera"; });
    REQUIRE(pictures.size() == 2);
    CHECK(pictures[0].hash == std::string(64, 'a'));
    CHECK(pictures[0].caption == "0:00:00 · Vera · Picture, 45\u00A0kB: a · file aaaaaaaaaaaaaaaa");
    CHECK(pictures[1].hash == std::string(64, 'd'));
}
