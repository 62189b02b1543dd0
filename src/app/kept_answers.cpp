// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/kept_answers.h"

#include "app/wording.h"

#include <QStringList>

namespace loopside::app {

namespace {

constexpr QChar between(0x1f); // the unit separator: nobody types it

enum Part
{
    About,
    Say,
    Why,
    Person,
    Wall,
    parts
};

} // namespace

KeptAnswers::KeptAnswers(Tablet& tablet, const Id& page) : tablet_{tablet}, page_{page}
{
    read();
}

void KeptAnswers::read()
{
    const auto drafts = tablet_.drafts().of(page_).value_or(std::map<std::string, std::string>{});
    for (const auto& [check, text] : drafts) {
        const QStringList part = toQt(text).split(between);
        if (part.size() != parts) {
            continue;
        }
        const auto person = idFromText(part[Person].toStdString());
        if (person) {
            kept_[check] = {part[About].toStdString(),
                            {{check, part[Say].toStdString(), part[Why].toStdString()},
                             *person,
                             part[Wall].toLongLong()}};
        }
    }
}

void KeptAnswers::keep(const std::string& about, const run::CheckAnswered& said)
{
    const Answer answer{said, tablet_.personId(), tablet_.now().wallMs};
    kept_[said.check] = {about, answer};
    const QStringList part = {toQt(about), toQt(said.say), toQt(said.why), toQt(toText(answer.person)),
                              QString::number(answer.wallMs)};
    if (!tablet_.drafts().put(page_, said.check, part.join(between).toStdString()) && !isTold_) {
        isTold_ = true;
        tablet_.setNotice(tablet_.label("app.pad.draft-not-stored"));
    }
}

std::optional<KeptAnswers::Answer> KeptAnswers::before(const std::string& about, std::string_view check) const
{
    const auto found = kept_.find(check);
    if (found == kept_.end() || found->second.about != about) {
        return std::nullopt;
    }
    const std::chrono::milliseconds age{tablet_.now().wallMs - found->second.answer.wallMs};
    return age >= std::chrono::milliseconds{0} && age <= answersOffered ? std::optional(found->second.answer)
                                                                        : std::nullopt;
}

void KeptAnswers::forget()
{
    kept_.clear();
    static_cast<void>(tablet_.drafts().clear(page_)); // what stays is offered once more, no harm
}

} // namespace loopside::app
