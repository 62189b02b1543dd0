// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/told_stories.h"

#include "ledger/memory_journal.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>

namespace loopside::test {

std::string ToldStory::lines() const
{
    std::string all;
    for (const auto& object : objects) {
        all += object.dump() + "\n";
    }
    return all;
}

std::string textOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        FAIL(path << " cannot be opened");
    }
    return {std::istreambuf_iterator<char>(file), {}};
}

ToldStory tell(const std::string& text)
{
    auto story = story::parseStory(text);
    if (!story) {
        FAIL(story.error().sentence);
    }
    ToldStory told{*std::move(story), {}, {}};
    ledger::MemoryJournal journal;
    const auto words = words::Words::in("en").value();
    const auto replayed = story::replay(told.story, story::saltOf(text), journal, [&](const story::Told& what) -> Done {
        told.objects.push_back(story::toldJson(what, words));
        return {};
    });
    if (!replayed) {
        FAIL(replayed.error().sentence);
    }
    const auto entries = journal.read(0, 1'000'000);
    REQUIRE(entries.has_value());
    for (const ledger::Stored& stored : *entries) {
        told.ids.push_back(stored.entry.header.id);
    }
    return told;
}

} // namespace loopside::test
