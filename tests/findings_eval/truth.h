// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is true in a story, so that saying it is no false alarm: what the story expects, and what truths.json tells
// besides.

#pragma once

#include "story/story.h"
#include "variant.h"

#include <nlohmann/json_fwd.hpp>

#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace loopside::evaluation {

/// A finding or question that is right to be said in a story without being its point.
struct AlsoTrue
{
    std::string id;
    std::optional<int> stage = {};          ///< None: of any.
    std::optional<run::RunTime> from = {};  ///< None: from the start on.
    std::optional<run::RunTime> until = {}; ///< None: to the end.
    std::string why = {};
};

/// What the file of truths says, by the name of a story (its file without ".json").
struct Truths
{
    std::set<std::string> normal; ///< Stories in which nothing is wrong.
    std::map<std::string, std::vector<AlsoTrue>> alsoTrue;
    std::map<std::string, MeantSets> meant;
};

/// Reads truths. Malformed, naming the place, for an unknown member or id, a missing reason or a time of no form.
[[nodiscard]] Result<Truths> truthsFrom(const std::string& text);
[[nodiscard]] Result<Truths> readTruths(const std::filesystem::path& file);

/// The truth of one story.
class Truth
{
public:
    /// `story` must outlive it.
    Truth(const story::Story& story, std::vector<AlsoTrue> alsoTrue) : story_{story}, alsoTrue_{std::move(alsoTrue)} {}

    /// Whether a finding (or the alert of its name) may be said at `at` of the story's own times. Between an
    /// expectation that says it and the nearest that says it not, it may: when it was first to be seen is nobody's
    /// knowledge.
    [[nodiscard]] bool mayFind(const std::string& id, std::optional<int> stage, run::RunTime at) const;

    /// The same of a question.
    [[nodiscard]] bool mayAsk(const std::string& id, run::RunTime at) const;

private:
    [[nodiscard]] bool isAlsoTrue(const std::string& id, std::optional<int> stage, run::RunTime at) const;
    [[nodiscard]] bool isExpected(const std::set<std::string>& yes, const std::set<std::string>& no,
                                  const std::string& id, std::optional<int> stage, run::RunTime at) const;

    const story::Story& story_;
    std::vector<AlsoTrue> alsoTrue_;
};

} // namespace loopside::evaluation
