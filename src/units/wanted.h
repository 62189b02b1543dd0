// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pressures, volumes, temperatures and flows as who looks at them wants them. Only what is shown follows a wish; what
// was typed is kept as it was typed.

#pragma once

#include "units/typed.h"

#include <optional>
#include <string>
#include <string_view>

namespace loopside::units {

/// The units that somebody wants; null: as typed, or the unit of the gauge.
struct Wanted
{
    const NamedUnit<Pressure>* pressure = nullptr;
    const NamedUnit<Volume>* volume = nullptr; ///< A flow follows it: L/min, gpm, m³/h.
    const NamedUnit<Temperature>* temperature = nullptr;

    friend bool operator==(const Wanted&, const Wanted&) = default;
};

/// In the unit that is wanted, with the digits that make sense in it; exactly as typed where that is the unit already
/// or none is wanted.
[[nodiscard]] std::string shown(const Typed<Pressure>& pressure, const Wanted& wanted);
[[nodiscard]] std::string shown(const Typed<Volume>& volume, const Wanted& wanted);
[[nodiscard]] std::string shown(const Typed<Temperature>& temperature, const Wanted& wanted);
[[nodiscard]] std::string shown(const Typed<Flow>& flow, const Wanted& wanted);

/// What was computed: in the unit that is wanted, else in `otherwise`.
[[nodiscard]] std::string shown(Pressure pressure, const NamedUnit<Pressure>& otherwise, const Wanted& wanted);
[[nodiscard]] std::string shown(Volume volume, const NamedUnit<Volume>& otherwise, const Wanted& wanted);

/// The unit that is wanted of a pressure, else `otherwise`.
[[nodiscard]] const NamedUnit<Pressure>& unitOf(const NamedUnit<Pressure>& otherwise, const Wanted& wanted);

/// `text` in the unit that is wanted, where all of it is one such quantity; `text` itself where it is anything else.
[[nodiscard]] std::string shown(std::string_view text, const Wanted& wanted);

} // namespace loopside::units
