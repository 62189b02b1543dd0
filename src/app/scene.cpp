// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/scene.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace loopside::app {

namespace {

using Json = nlohmann::ordered_json;

Json storyOf(const Json& scenes, const Json& scene)
{
    Json story;
    story["tank"] = scene.at("tank");
    story["cart"] = scenes.at("cart");
    story["stages"] = scene.contains("stages") ? scene.at("stages")
                                               : scenes.at("elements").at(scene.value("elements", "fine"));
    story["target"] = scenes.at("target");
    story["entries"] = scene.at("entries");
    return story;
}

bool saysMore(const story::StoryEntry& entry)
{
    return !std::ranges::all_of(entry.steps,
                                [](const story::Step& step) { return std::holds_alternative<run::Said>(step); });
}

Result<Scene> readScene(const Json& scenes, const Json& scene)
{
    const std::string name = scene.at("name");
    auto story = story::parseStory(storyOf(scenes, scene).dump());
    if (!story) {
        return fail(story.error().code, "scene " + name + ": " + story.error().sentence);
    }
    if (std::ranges::any_of(story->entries, saysMore)) {
        return fail(Errc::Malformed, "scene " + name + ": entries may only say what a person says of a run");
    }
    std::ranges::stable_sort(story->entries, {}, &story::StoryEntry::entered);
    return Scene{name, scene.value("finding", ""), scene.value("alert", ""), scene.value("question", ""),
                 *std::move(story)};
}

} // namespace

Result<std::vector<Scene>> readScenes(std::string_view text)
{
    try {
        const Json scenes = Json::parse(text);
        std::vector<Scene> all;
        for (const Json& scene : scenes.at("scenes")) {
            auto read = readScene(scenes, scene);
            if (!read) {
                return fail(read.error());
            }
            all.push_back(*std::move(read));
        }
        return all;
    } catch (const Json::exception& fault) {
        return fail(Errc::Malformed, std::string("scenes: ") + fault.what());
    }
}

} // namespace loopside::app
