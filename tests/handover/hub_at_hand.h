// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "handover/carrier.h"
#include "sync/enrolment.h"
#include "sync/enrolment_code.h"
#include "sync/files.h"
#include "sync/handmade.h"
#include "sync/signed_request.h"

#include <algorithm>
#include <deque>
#include <map>
#include <set>

namespace loopside::test {

/// A hub without a network: what a tablet sends waits until `answer`. It looks at stamps and signatures as a hub does.
class HubAtHand final : public handover::Carrier
{
public:
    void send(handover::Post post, Heard heard) override { asked_.push_back({std::move(post), std::move(heard)}); }
    void giveUp() override { asked_.clear(); }

    [[nodiscard]] bool isAsked() const { return !asked_.empty(); }

    /// Whether something waits for an answer that was asked at `path` or behind it.
    [[nodiscard]] bool isAskedAt(std::string_view path) const
    {
        return isAsked() && asked_.front().post.path.starts_with(path);
    }

    /// Answers what waits, with `answer` where it is given; false if nothing does.
    bool answer(std::optional<Result<handover::Answer>> answer = {})
    {
        if (asked_.empty()) {
            return false;
        }
        auto [post, heard] = std::move(asked_.front());
        asked_.pop_front();
        ++requests;
        if (!answer && !post.isMeant(certificate)) {
            answer = fail(Errc::Conflict, "another hub", {"handover.other-hub", {{"hub", post.address}}});
        }
        if (!answer) {
            told.push_back(post.body);
            answer = answerTo(post);
        }
        heard(*answer);
        return true;
    }

    /// Loses everything, as one that is set up anew.
    void beginAnew()
    {
        std::destroy_at(&hub);
        std::construct_at(&hub, Recorder::idOf(0x10, 2));
        files.clear();
    }

    /// Until nothing is asked any more.
    void answerAll()
    {
        while (answer()) {
        }
    }

    [[nodiscard]] handover::Answer refused(int status, Errc code) const
    {
        return {status, sync::bytesOf(sync::refusalOf(someSite().id, Error{code, "no"})), nowMs, {}, certificate};
    }

    [[nodiscard]] sync::EnrolmentCode code() const { return {"7K3M9QAB", sync::enrolmentPinOf(certificate)}; }

    Hub hub;
    std::int64_t nowMs = aboutNowMs;
    ledger::Hash certificate = {1, 2, 3, 4, 5, 6, 7, 8, 9};
    std::size_t requests = 0;
    std::vector<std::string> told;            ///< Bodies that came as far as the hub.
    std::map<std::string, std::string> files; ///< By the path that they came to.
    bool takesFiles = true;                   ///< An older hub does not.

private:
    struct Asked
    {
        handover::Post post;
        Heard heard;
    };

    [[nodiscard]] handover::Answer answerTo(const handover::Post& post)
    {
        const bool isEnrolment = post.path == "/v1/enrol";
        const auto proof = sync::requestProofFrom(post.signature);
        if (!proof) {
            return refused(401, Errc::Malformed);
        }
        const sync::Request request{"POST", post.path, post.body};
        const auto key = Recorder::keyOf(proof->device.bytes[15]).publicKey();
        if (const Done may = mayPass(*proof, isEnrolment ? Id{} : someSite().id, request, key, nowMs); !may) {
            return refused(401, may.error().code);
        }
        return isEnrolment                           ? enrolled(post.body)
            : post.path.starts_with(sync::filesPath) ? answerOfFiles(post)
                                                     : messageFor(post.body);
    }

    /// It wants what it does not have, whoever names it.
    [[nodiscard]] handover::Answer answerOfFiles(const handover::Post& post)
    {
        if (!takesFiles) {
            return {404, "", nowMs, {}, certificate};
        }
        sync::FileList answer;
        if (post.path == sync::filesPath) {
            answer = sync::fileListFrom(post.body).value();
            std::erase_if(answer, [&](const sync::FilePlace& place) { return files.contains(pathOf(place)); });
        } else {
            answer = {sync::filePlaceIn(post.path).value()};
            files[post.path] = post.body;
        }
        return {200, sync::bytesOf(answer), nowMs, {}, certificate};
    }

    [[nodiscard]] handover::Answer enrolled(const std::string& body) const
    {
        const auto request = sync::enrolmentRequestFrom(body);
        if (!request || request->secret != code().secret) {
            return refused(409, Errc::NotFound);
        }
        const std::string answer = sync::bytesOf(sync::EnrolmentAnswer{someSite().id, someSite().hub});
        return {200, answer, nowMs, {}, certificate};
    }

    [[nodiscard]] handover::Answer messageFor(const std::string& body)
    {
        const auto message = sync::messageFrom(body);
        const auto answer = message ? hub.side.hear(*message, nowMs) : fail(message.error());
        return answer ? handover::Answer{200, sync::bytesOf(*answer), nowMs, {}, certificate}
                      : refused(409, answer.error().code);
    }

    std::deque<Asked> asked_;
};

} // namespace loopside::test
