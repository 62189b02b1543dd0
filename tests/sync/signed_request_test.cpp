// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/signed_request.h"

#include "base/text.h"
#include "ledger/recorder.h"

using namespace loopside;
using namespace loopside::sync;
using loopside::test::Recorder;

namespace {

constexpr std::int64_t nowMs = 1'751'958'400'000;
const Id site = Recorder::idOf(0x51, 1);
const Id device = Recorder::idOf(0xD0, 1);
const Nonce nonce = {1, 2, 3};
const Request request = {"POST", "/v1/messages", "what is said\n"};

std::string header()
{
    return signatureOf(site, request, device, nowMs, nonce, Recorder::keyOf(1));
}

Done passes(const std::string& value, const Request& of, std::int64_t at = nowMs, const Id& atSite = site)
{
    const auto proof = requestProofFrom(value);
    REQUIRE(proof);
    return mayPass(*proof, atSite, of, Recorder::keyOf(1).publicKey(), at);
}

std::string codeOf(const Done& done)
{
    return done ? "" : done.error().code == Errc::Conflict ? "conflict" : done.error().sentence;
}

} // namespace

TEST_CASE("a request passes with the signature that was made for it")
{
    CHECK(codeOf(passes(header(), request)).empty());
    const auto proof = requestProofFrom(header());
    CHECK(proof->device == device);
    CHECK(proof->atMs == nowMs);
    CHECK(proof->nonce == nonce);
}

TEST_CASE("a signature fits no other method, path, body, site, stamp, nonce, device or key")
{
    CHECK(codeOf(passes(header(), {"PUT", request.path, request.body})) == "conflict");
    CHECK(codeOf(passes(header(), {request.method, "/v1/message", request.body})) == "conflict");
    CHECK(codeOf(passes(header(), {request.method, request.path, "what is said"})) == "conflict");
    CHECK(codeOf(passes(header(), request, nowMs, Recorder::idOf(0x51, 2))) == "conflict");
    CHECK(codeOf(passes(signatureOf(site, request, device, nowMs, nonce, Recorder::keyOf(2)), request)) == "conflict");
    auto proof = *requestProofFrom(header());
    const auto check = [&](const RequestProof& changed) {
        return codeOf(mayPass(changed, site, request, Recorder::keyOf(1).publicKey(), nowMs));
    };
    CHECK(check(proof).empty());
    proof.atMs += 1;
    CHECK(check(proof) == "conflict");
    proof = *requestProofFrom(header());
    proof.nonce[0] = 9;
    CHECK(check(proof) == "conflict");
    proof = *requestProofFrom(header());
    proof.device = Recorder::idOf(0xD0, 2);
    CHECK(check(proof) == "conflict");
}

TEST_CASE("the boundary between method and path cannot be moved")
{
    const std::string moved = signatureOf(site, {"POST/", "v1/messages", request.body}, device, nowMs, nonce,
                                          Recorder::keyOf(1));
    CHECK(codeOf(passes(moved, {"POST", "/v1/messages", request.body})) == "conflict");
}

TEST_CASE("a stamp outside five minutes either way is refused with both clocks")
{
    CHECK(passes(header(), request, nowMs + requestWindowMs));
    CHECK(passes(header(), request, nowMs - requestWindowMs));
    const Done late = passes(header(), request, nowMs + requestWindowMs + 1);
    REQUIRE_FALSE(late);
    CHECK(late.error().code == Errc::OutOfRange);
    CHECK(late.error().sentence.find(utcText(nowMs)) != std::string::npos);
    CHECK_FALSE(passes(header(), request, nowMs - requestWindowMs - 1));
    const std::int64_t last = std::numeric_limits<std::int64_t>::max();
    CHECK_FALSE(passes(signatureOf(site, request, device, last, nonce, Recorder::keyOf(1)), request));
    CHECK_FALSE(passes(signatureOf(site, request, device, -last, nonce, Recorder::keyOf(1)), request));
}

TEST_CASE("a header that is none is malformed, one of a newer layout says so")
{
    for (const std::string& value :
         {std::string(), std::string("v1"), header() + " ", header() + "0", header().substr(0, header().size() - 1),
          "v0" + header().substr(2), "w1" + header().substr(2), header().substr(3)}) {
        const auto proof = requestProofFrom(value);
        INFO(value);
        REQUIRE_FALSE(proof);
        CHECK(proof.error().code == Errc::Malformed);
    }
    const auto newer = requestProofFrom("v2 whatever");
    REQUIRE_FALSE(newer);
    CHECK(newer.error().code == Errc::Incompatible);
}
