// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/cookie.h"

#include "base/text.h"

namespace loopside::page {

namespace {

constexpr std::string_view attributes = "; Path=/; Secure; HttpOnly; SameSite=Strict";

} // namespace

std::string cookieWith(std::string_view token)
{
    return std::string(sessionCookie).append("=").append(token).append(attributes);
}

std::string cookieWithout()
{
    return cookieWith("").append("; Max-Age=0");
}

std::optional<std::string> tokenIn(std::string_view cookies)
{
    std::optional<std::string> token;
    while (!cookies.empty()) {
        const auto end = cookies.find(';');
        const std::string_view pair = trimmed(cookies.substr(0, end));
        cookies = end == std::string_view::npos ? std::string_view() : cookies.substr(end + 1);
        const auto equals = pair.find('=');
        if (equals == std::string_view::npos || pair.substr(0, equals) != sessionCookie) {
            continue;
        }
        if (token) {
            return std::nullopt;
        }
        token = std::string(pair.substr(equals + 1));
    }
    return token;
}

} // namespace loopside::page
