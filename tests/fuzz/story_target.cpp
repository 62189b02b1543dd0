// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Story files.

#include "fuzz/target.h"
#include "story/story.h"

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const auto story = loopside::story::parseStory(loopside::fuzz::textOf(data, size));
    loopside::fuzz::must(story || !story.error().sentence.empty(), "a refusal says nothing");
    return 0;
}
