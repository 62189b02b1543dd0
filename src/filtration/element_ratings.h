// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "oil/fluid_family.h"
#include "oil/grade.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::filtration {

/// Which particle stage a line of the table is for.
enum class RatingRole
{
    First, ///< The coarse one, ahead.
    Last,  ///< The fine one, behind.
    Any,
    Limit ///< No coarser than `to`, whichever stage is last.
};

/// One line of assets/reference/element_ratings.csv: a starting point and who says so.
struct ElementRating
{
    oil::FluidFamily family;
    std::optional<int> vgFrom; ///< None: every grade.
    std::optional<int> vgTo;
    RatingRole role;
    double fromUm;
    double toUm;
    std::string source;
    std::string provenance;
};

/// The whole table. Its sources differ, and stand side by side.
[[nodiscard]] std::span<const ElementRating> elementRatings();

/// Where a stage stands among the particle stages; the only one is both.
struct StagePlace
{
    bool isFirst;
    bool isLast;
};

/// The lines that speak of this fluid and stage. A line for certain grades does not speak where the grade is unknown.
[[nodiscard]] std::vector<ElementRating> ratingsFor(oil::FluidFamily family, const std::optional<oil::Grade>& grade,
                                                    StagePlace place);

} // namespace loopside::filtration
