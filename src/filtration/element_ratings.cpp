// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/element_ratings.h"

#include "base/decimal.h"
#include "base/require.h"
#include "embedded/elementRatingsCsv.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

namespace loopside::filtration {

namespace {

constexpr std::array<std::pair<std::string_view, RatingRole>, 4> roles = {{
    {"first", RatingRole::First},
    {"last", RatingRole::Last},
    {"any", RatingRole::Any},
    {"limit", RatingRole::Limit},
}};

/// The part of `text` up to `end`, which is taken off it with the `end`.
std::string_view take(std::string_view& text, char end)
{
    const std::string_view part = text.substr(0, text.find(end));
    text.remove_prefix(std::min(text.size(), part.size() + 1));
    return part;
}

double number(std::string_view cell)
{
    const auto decimal = Decimal::parse(cell);
    require(decimal.has_value(), "the table of element ratings holds numbers");
    return decimal->toDouble();
}

std::optional<int> gradeIn(std::string_view cell)
{
    return cell.empty() ? std::nullopt : std::optional(static_cast<int>(number(cell)));
}

RatingRole roleIn(std::string_view cell)
{
    const auto* const role = std::find_if(roles.begin(), roles.end(),
                                          [&](const auto& one) { return one.first == cell; });
    require(role != roles.end(), "a rating is for the first stage, the last, any, or a limit");
    return role->second;
}

ElementRating ratingIn(std::string_view line)
{
    ElementRating rating{};
    rating.family = oil::familyOf(take(line, ','));
    require(rating.family != oil::FluidFamily::Unknown, "the table of element ratings names known fluids");
    rating.vgFrom = gradeIn(take(line, ','));
    rating.vgTo = gradeIn(take(line, ','));
    rating.role = roleIn(take(line, ','));
    rating.fromUm = number(take(line, ','));
    rating.toUm = number(take(line, ','));
    rating.source = take(line, ',');
    rating.provenance = take(line, ',');
    return rating;
}

std::vector<ElementRating> parsedTable()
{
    std::vector<ElementRating> ratings;
    for (std::string_view text = elementRatingsCsv(); !text.empty();) {
        const std::string_view line = take(text, '\n');
        if (!line.empty() && !line.starts_with('#') && !line.starts_with("fluid,")) {
            ratings.push_back(ratingIn(line));
        }
    }
    return ratings;
}

bool isForGrade(const ElementRating& rating, const std::optional<oil::Grade>& grade)
{
    return !rating.vgFrom || (grade && grade->vg >= *rating.vgFrom && grade->vg <= *rating.vgTo);
}

bool isForPlace(const ElementRating& rating, StagePlace place)
{
    switch (rating.role) {
    case RatingRole::First:
        return place.isFirst;
    case RatingRole::Last:
    case RatingRole::Limit:
        return place.isLast;
    case RatingRole::Any:
        break;
    }
    return true;
}

} // namespace

std::span<const ElementRating> elementRatings()
{
    static const std::vector<ElementRating> ratings = parsedTable();
    return ratings;
}

std::vector<ElementRating> ratingsFor(oil::FluidFamily family, const std::optional<oil::Grade>& grade, StagePlace place)
{
    std::vector<ElementRating> found;
    for (const ElementRating& rating : elementRatings()) {
        if (rating.family == family && isForGrade(rating, grade) && isForPlace(rating, place)) {
            found.push_back(rating);
        }
    }
    return found;
}

} // namespace loopside::filtration
