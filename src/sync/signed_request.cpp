// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/signed_request.h"

#include "base/text.h"
#include "ledger/digest.h"
#include "sync/layout.h"

#include <charconv>
#include <optional>
#include <system_error>

namespace loopside::sync {

namespace {

constexpr std::string_view purpose{"loopside request\0", 17};
constexpr std::string_view layoutName = "v1";

void appendWithLength(std::string& bytes, std::string_view text)
{
    append(bytes, std::uint64_t{text.size()});
    bytes += text;
}

/// What stands in `rest` up to the next blank, which is taken off it with the blank.
std::string_view takeWord(std::string_view& rest)
{
    const auto end = rest.find(' ');
    const std::string_view word = rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    return word;
}

std::optional<std::int64_t> wholeNumber(std::string_view digits)
{
    std::int64_t number = 0;
    const char* end = digits.data() + digits.size();
    const auto [read, fault] = std::from_chars(digits.data(), end, number);
    return fault == std::errc() && read == end && !digits.empty() ? std::optional(number) : std::nullopt;
}

/// Whether `version` names a layout, and a later one than ours.
bool isNewer(std::string_view version)
{
    const auto number = version.starts_with('v') ? wholeNumber(version.substr(1)) : std::nullopt;
    return number && *number > 1;
}

} // namespace

std::string signedBytes(const Id& site, const Request& request, const RequestProof& proof)
{
    std::string bytes(purpose);
    append(bytes, site.bytes);
    append(bytes, proof.device.bytes);
    append(bytes, static_cast<std::uint64_t>(proof.atMs));
    append(bytes, proof.nonce);
    appendWithLength(bytes, request.method);
    appendWithLength(bytes, request.path);
    append(bytes, ledger::sha256(request.body));
    return bytes;
}

std::string signatureOf(const Id& site, const Request& request, const Id& device, std::int64_t atMs, const Nonce& nonce,
                        const ledger::DeviceKey& key)
{
    const RequestProof proof = {device, atMs, nonce, {}};
    return std::string(layoutName) + ' ' + toText(device) + ' ' + std::to_string(atMs) + ' ' + toHex(nonce) + ' '
        + toHex(key.sign(signedBytes(site, request, proof)));
}

Result<RequestProof> requestProofFrom(std::string_view value)
{
    std::string_view rest = value;
    const std::string_view version = takeWord(rest);
    if (isNewer(version)) {
        return fail(Errc::Incompatible,
                    "the request is signed in a layout that this hub does not know (" + quotable(version)
                        + "): update the hub first");
    }
    const auto device = idFromText(takeWord(rest));
    const auto atMs = wholeNumber(takeWord(rest));
    RequestProof proof;
    const bool hasNonce = fromHex(takeWord(rest), proof.nonce);
    const bool hasSignature = fromHex(takeWord(rest), proof.signature);
    if (version != layoutName || !device || !atMs || !hasNonce || !hasSignature || !rest.empty()) {
        return fail(Errc::Malformed, "the request bears no signature of a device that could be read");
    }
    proof.device = *device;
    proof.atMs = *atMs;
    return proof;
}

Done mayPass(const RequestProof& proof, const Id& site, const Request& request, const ledger::PublicKey& key,
             std::int64_t nowMs)
{
    if (!ledger::verifies(key, signedBytes(site, request, proof), proof.signature)) {
        return fail(Errc::Conflict,
                    "the request is not signed by the device " + toText(proof.device) + " as it is enrolled here");
    }
    if (proof.atMs < nowMs - requestWindowMs || proof.atMs > nowMs + requestWindowMs) {
        return fail(Errc::OutOfRange,
                    "the request is stamped " + utcText(proof.atMs) + " and the hub's clock says " + utcText(nowMs)
                        + ": they may be 5 minutes apart. Nothing was taken; set the clock of the tablet or the hub");
    }
    return {};
}

} // namespace loopside::sync
