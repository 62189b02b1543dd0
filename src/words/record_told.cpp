// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/record_told.h"

#include "words/digits.h"

namespace loopside::words {

std::string answerText(const Words& words, run::Answer answer, const std::string& why, bool wasAsked)
{
    const bool isSkipped = answer == run::Answer::Skipped;
    const std::string plain = words.say(
        {"answer." + std::string(run::nameOf(answer)),
         isSkipped ? std::vector<Message::Argument>{{"why", why}} : std::vector<Message::Argument>{}});
    return wasAsked ? words.say({"answer.asked", {{"answer", plain}}}) : plain;
}

std::string checkLine(const Words& words, const run::CheckAnswered& answered)
{
    const auto answer = run::answerNamed(answered.say);
    if (!answer || run::pointNamed(answered.check) == nullptr) {
        return {};
    }
    return words.say("check." + answered.check) + ": " + answerText(words, *answer, answered.why, answered.wasAsked);
}

std::string noteLine(const Words& words, const run::Note& note, const run::RunState& run)
{
    const run::Fact* about = run.factOf(note.of);
    return about == nullptr ? words.say({"note.of-run", {{"text", note.text}}})
                            : words.say({"note.of-entry", {{"at", runTimeText(about->seen)}, {"text", note.text}}});
}

std::string attachedLine(const Words& words, const run::AttachmentAdded& added)
{
    std::vector<Message::Argument> values = {{"kind", words.say("attachment." + std::string(run::nameOf(added.kind)))},
                                             {"size", std::to_string((added.bytes + 999) / 1000)}};
    if (added.caption.empty()) {
        return words.say({"attachment.line", std::move(values)});
    }
    values.emplace_back("caption", added.caption);
    return words.say({"attachment.captioned", std::move(values)});
}

std::string attachmentLine(const Words& words, const run::Attachment& attachment)
{
    if (!attachment.withdrawn) {
        return attachedLine(words, attachment.added);
    }
    const std::string kind = words.say("attachment." + std::string(run::nameOf(attachment.added.kind)));
    return attachment.withdrawn->why.empty()
        ? words.say({"attachment.struck", {{"kind", kind}}})
        : words.say({"attachment.withdrawn", {{"kind", kind}, {"why", attachment.withdrawn->why}}});
}

std::string runTimeText(run::RunTime time)
{
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time).count();
    return std::to_string(seconds / 3600) + ":" + twoDigits(seconds / 60 % 60) + ":" + twoDigits(seconds % 60);
}

} // namespace loopside::words
