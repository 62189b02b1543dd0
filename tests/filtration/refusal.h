// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <catch2/catch.hpp>

#include <string>

namespace loopside::test {

/// The sentence of a result that must be refused, as out of range unless `code` says otherwise.
template<class T>
std::string refusal(const Result<T>& result, Errc code = Errc::OutOfRange)
{
    REQUIRE_FALSE(result.has_value());
    CHECK(result.error().code == code);
    return result.error().sentence;
}

} // namespace loopside::test
