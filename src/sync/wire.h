// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Messages as bytes: lines of JSON, laid out in schema/wire/README.md. The first says what the message is; each entry
// is a line as in an export (ledger/line.h), so that its body comes back byte for byte.

#pragma once

#include "sync/message.h"

#include <string>
#include <string_view>

namespace loopside::sync {

/// The protocol that this version speaks, and the only one.
inline constexpr int protocol = 1;

[[nodiscard]] std::string bytesOf(const Message& message);

/// The message that `bytesOf` wrote. Incompatible for one of a newer protocol, OutOfRange for one beyond the bounds of
/// message.h, Malformed, with the line at fault, for anything else. Neither hashes nor signatures are looked at.
[[nodiscard]] Result<Message> messageFrom(std::string_view bytes);

/// What to answer where a message was refused with `error`.
[[nodiscard]] Message refusalOf(const Id& site, const Error& error);

/// The bytes over which a hub of `site` signs `page`: all but its signature.
[[nodiscard]] std::string signedBytes(const Id& site, const Page& page);

} // namespace loopside::sync
