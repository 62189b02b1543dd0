// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The cookie that holds the token of a session, as RFC 6265 and the prefix of its second edition have it (from memory).

#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace loopside::page {

/// With this prefix a browser takes the cookie over HTTPS only, for this one host and all of it.
inline constexpr std::string_view sessionCookie = "__Host-loopside";

/// The value of Set-Cookie that gives a browser `token`: no script reads it, no other site sends it, it ends with the
/// browser.
[[nodiscard]] std::string cookieWith(std::string_view token);

/// The value of Set-Cookie that takes it back.
[[nodiscard]] std::string cookieWithout();

/// The token in the value of a Cookie header; nothing if there is none, or more than one.
[[nodiscard]] std::optional<std::string> tokenIn(std::string_view cookies);

} // namespace loopside::page
