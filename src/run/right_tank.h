// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Is this the right tank? What a position, a tag and a look at the plate can tell, and what they cannot.

#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::run {

/// A point on the earth, in degrees; north and east are positive.
struct Place
{
    double latitude_deg = 0.0;
    double longitude_deg = 0.0;
};

/// Where a receiver says that it is.
struct Fix
{
    Place place;
    std::optional<double> accuracy_m = {}; ///< 95 % of its fixes lie no farther from the truth; none: it tells none.
};

/// Along the surface, in metres.
///
/// Source: haversine formula on a sphere of the earth's mean radius, 6 371 008.8 m (R1 of GRS 80: Moritz, Geodetic
/// Reference System 1980). A sphere is off by up to 0.6 % against the ellipsoid: centimetres between tanks.
[[nodiscard]] double distance_m(const Place& a, const Place& b);

/// How far a person at a tank may stand from the point that its record names (our choice: hoses are 2 to 3 m long, and
/// tanks are metres wide).
inline constexpr double reach_m = 5.0;

/// What a fix tells of the tanks around it.
enum class WhereTold
{
    NoPlaces,        ///< Of no tank is known where it stands.
    AccuracyUnknown, ///< The receiver does not tell how far it may be off.
    NoneHere,        ///< Every tank whose place is known is farther away than the fix can be off.
    CannotTellApart, ///< It may be at more than one, or at one whose place is not known.
    One              ///< At one of them, and at no other.
};

/// A tank whose place is known, as a fix sees it.
struct TankAway
{
    std::size_t tank; ///< Its place in the list.
    double away_m;
    bool mayBeIt; ///< Within what the fix may be off, and the reach of a person there.
};

struct TanksAround
{
    WhereTold told = WhereTold::NoPlaces;
    std::vector<TankAway> nearest = {}; ///< All whose place is known, the nearest first.
};

/// At which of the tanks `fix` may be, given where each stands, itself a fix: exact where it has no accuracy; nothing
/// where it is not known.
[[nodiscard]] TanksAround tanksAround(const Fix& fix, const std::vector<std::optional<Fix>>& tanks);

/// Whether a tag that reads `read` is the one that shows `shown`: letters and digits decide, in either case; blanks and
/// dashes do not. Nothing is the same as nothing.
[[nodiscard]] bool readsAs(std::string_view read, std::string_view shown);

/// How somebody looked at the tank.
enum class LookBy
{
    Reader,  ///< A tag, read by a reader that types.
    Camera,  ///< A tag, read by the tablet's camera.
    Typed,   ///< The plate or tag, typed.
    Oil,     ///< The oil that the plate names.
    Position ///< A fix that tells the tank from every other.
};

/// As the journal and the word catalogue have it.
[[nodiscard]] std::string_view nameOf(LookBy by);
[[nodiscard]] std::optional<LookBy> lookByNamed(std::string_view name);

/// One look at a tank, held against the tank that was chosen.
struct TankLook
{
    LookBy by = LookBy::Typed;
    std::string read;     ///< As it came: the tag, the oil.
    std::string expected; ///< The tank that was chosen.
    bool fits = false;
    std::string of = {};  ///< The tank whose tag it is, if it is known and another one.
    std::string why = {}; ///< Why it was gone on with although it does not fit; empty: it was not.

    friend bool operator==(const TankLook&, const TankLook&) = default;
};

/// How well it is known that a tank is the right one.
enum class TankKnown
{
    Not,      ///< Nobody looked, or the last look did not fit.
    Once,     ///< One look fits.
    Twice,    ///< Two looks fit that do not rest on the same sign.
    AgainstIt ///< It was gone on with although a look did not fit: a supervisor looks at it.
};

[[nodiscard]] std::string_view nameOf(TankKnown known);

/// What `looks`, in their order, tell of `tank`; those that were held against another tank do not count. A tag that
/// is read and a tag that is typed are two looks (a code may stand on the wrong tank), a tag read twice is one.
/// Oil tells a tank only from those with other oil, so it never counts alone.
[[nodiscard]] TankKnown knownFrom(const std::vector<TankLook>& looks, const std::string& tank);

} // namespace loopside::run
