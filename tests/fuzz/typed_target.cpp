// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Numbers and quantities as people type them: what is taken keeps its digits.

#include "base/decimal.h"
#include "fuzz/target.h"
#include "units/typed.h"

using namespace loopside;

namespace {

template<class Q>
void look(std::string_view text)
{
    if (const auto typed = units::Typed<Q>::parse(text)) {
        const auto again = units::Typed<Q>::parse(typed->toText());
        fuzz::must(again && again->toText() == typed->toText(), "a quantity does not come back from its text");
    }
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text = fuzz::textOf(data, size);
    if (const auto number = Decimal::parse(text)) {
        const auto again = Decimal::parse(number->toText());
        fuzz::must(again && again->toText() == number->toText(), "a number does not come back from its text");
    }
    look<units::Pressure>(text);
    look<units::Flow>(text);
    look<units::Volume>(text);
    look<units::Temperature>(text);
    look<units::KinematicViscosity>(text);
    return 0;
}
