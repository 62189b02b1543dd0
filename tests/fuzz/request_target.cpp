// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a hub reads before it knows who speaks: the first line as the header of a signed request, as a typed code and as
// the path of a file; the rest as an enrolment and as a list of files. Nothing that was not signed passes; what is read
// comes back from its bytes.

#include "fuzz/target.h"
#include "sync/enrolment.h"
#include "sync/enrolment_code.h"
#include "sync/files.h"
#include "sync/signed_request.h"

using namespace loopside;

namespace {

/// What `read` gave must come back from what `write` makes of it.
template<class Read, class Write>
void comesBack(std::string_view text, Read read, Write write)
{
    const auto first = read(text);
    if (first) {
        const auto again = read(write(*first));
        fuzz::must(again && *again == *first, "what was read does not come back from its bytes");
    } else {
        fuzz::must(!first.error().sentence.empty(), "something is refused without a word");
    }
}

void lookAtHeader(std::string_view line, std::string_view body)
{
    static const auto key = ledger::DeviceKey::fromSeed({}).publicKey();
    const auto proof = sync::requestProofFrom(line);
    if (!proof) {
        fuzz::must(!proof.error().sentence.empty(), "a header is refused without a word");
        return;
    }
    // The same request in the name of another site: one signature stands for one of them at most.
    const sync::Request request = {"POST", "/v1/enrol", body};
    const bool passesHere = sync::mayPass(*proof, Id{}, request, key, proof->atMs).has_value();
    const bool passesThere = sync::mayPass(*proof, Id{{1}}, request, key, proof->atMs).has_value();
    fuzz::must(!(passesHere && passesThere), "one signature passes for two sites");
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text = fuzz::textOf(data, size);
    const auto end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    const std::string_view rest = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    lookAtHeader(line, rest);
    const auto bytes = [](const auto& said) { return bytesOf(said); };
    comesBack(line, sync::enrolmentCodeFrom, [](const sync::EnrolmentCode& code) { return toText(code); });
    comesBack(rest, sync::enrolmentRequestFrom, bytes);
    comesBack(rest, sync::enrolmentAnswerFrom, bytes);
    comesBack(rest, sync::fileListFrom, bytes);
    if (const auto place = sync::filePlaceIn(line)) {
        fuzz::must(sync::pathOf(*place) == line, "two paths name one place");
    }
    return 0;
}
