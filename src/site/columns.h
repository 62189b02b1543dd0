// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The columns that a file of records may have. Names are the trade's words; a quantity has its unit behind it, such as
// `volume_gal`, or in each field, such as `volume` with "200 gal". Nothing is converted: what a field says is kept with
// its unit. schema/README.md documents each.

#pragma once

#include "site/site.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::site {

/// Kinds of files of records, by the name that the command line and screens use.
inline constexpr std::array<std::string_view, 5> fileKinds = {"tanks", "fluids", "elements", "carts", "jobs"};

/// The kind of record that a file of `fileKind` holds, such as "tank"; NotFound, naming the kinds that there are.
[[nodiscard]] Result<std::string> recordKindOf(std::string_view fileKind);

/// A record while a file is read. Only the one of its kind counts.
struct Draft
{
    Draft();

    run::TankPut tank;
    run::CartPut cart;
    run::FluidPut fluid;
    run::ElementTypePut element;
    run::JobPut job;
    std::optional<int> stock = {}; ///< Elements counted.
};

/// One field of a row.
struct Cell
{
    std::string text;           ///< Not empty; "-" takes back what is known.
    std::string unit = {};      ///< What stood behind the column's name, such as "gal"; empty: nothing.
    bool pointMayGroup = false; ///< The file may use points for thousands: "1.234" reads in two ways.
};

struct FieldFault
{
    Message what;
    Message todo; ///< What to do about it.
};

/// What a column fills.
struct Member
{
    std::string name;
    std::function<bool(std::string_view unit)> takesUnit; ///< Empty: no unit stands behind its name.
    std::function<std::optional<FieldFault>(Draft&, const Cell&, const Site&)> read;
    bool isNeeded = false;    ///< A new record has to tell it.
    std::string example = {}; ///< A name that the column may have, with its unit.
};

/// The members of a kind of record in the order in which they are read; the first is its name.
[[nodiscard]] const std::vector<Member>& membersOf(std::string_view recordKind);

} // namespace loopside::site
