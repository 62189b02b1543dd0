// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/notes.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

AttachmentAdded picture(const std::string& caption = {})
{
    return {AttachmentKind::Photo, {}, std::string(64, 'a'), 45'000, "image/jpeg", caption};
}

Amended strike(const Id& of)
{
    Amended amendment;
    amendment.of = of;
    amendment.struck = true;
    amendment.why = "wrong cart";
    return amendment;
}

std::string refusalOf(const Walk& walk, const Said& what)
{
    const auto decided = walk.attempt(5, Say{walk.id(), what});
    return decided ? "" : decided.error().say.id;
}

} // namespace

TEST_CASE("an attachment is withdrawn, not struck, and its withdrawal cannot be struck either")
{
    Walk walk;
    const Id added = walk.sayAt(1, picture()).last();
    CHECK(refusalOf(walk, strike(added)) == "refused.amend-attachment");
    CHECK_FALSE(attachmentsOf(walk.run()).front().withdrawn);
    const Id withdrawn = walk.sayAt(2, AttachmentWithdrawn{added, "a face is on it"}).last();
    CHECK(refusalOf(walk, strike(added)) == "refused.amend-attachment");
    CHECK(refusalOf(walk, strike(withdrawn)) == "refused.amend-attachment");
    CHECK(isWithdrawn(walk.run(), added));
}

TEST_CASE("a withdrawal that another version struck stands: the file is gone")
{
    Walk walk;
    const Id added = walk.sayAt(1, picture()).last();
    const Id withdrawn = walk.sayAt(2, AttachmentWithdrawn{added, "a face is on it"}).last();
    Header header = walk.run().facts.back().header;
    header.id.bytes.fill(0xF0);
    ++header.clock;
    const State state = apply(walk.state(), header, strike(withdrawn));
    REQUIRE(state.runOf(walk.id())->factOf(withdrawn)->struck);
    CHECK(isWithdrawn(*state.runOf(walk.id()), added));
}

TEST_CASE("a note and a caption are kept whole or refused, never cut")
{
    const std::string longest(noteBytesMax, 'n');
    Walk walk;
    const Id note = walk.sayAt(1, Noted{longest}).last();
    CHECK(notesOf(walk.run()).front().text == longest);
    CHECK(refusalOf(walk, Noted{longest + "n"}) == "refused.note-bytes");
    CHECK(refusalOf(walk, picture(longest)).empty());
    CHECK(refusalOf(walk, picture(longest + "n")) == "refused.note-bytes");
    Amended amendment;
    amendment.of = note;
    amendment.why = "more was seen";
    amendment.note = longest;
    CHECK(refusalOf(walk, amendment).empty());
    amendment.note = longest + "n";
    CHECK(refusalOf(walk, amendment) == "refused.note-bytes");
}
