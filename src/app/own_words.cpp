// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/own_words.h"

#include "app/wording.h"

namespace loopside::app {

OwnWords::OwnWords(Tablet& tablet, const Id& page, QObject* parent) : QObject{parent}, tablet_{tablet}, page_{page} {}

void OwnWords::about(const std::string& subject)
{
    subject_ = subject;
    const auto drafts = tablet_.drafts().of(page_).value_or(std::map<std::string, std::string>{});
    const auto found = drafts.find(subject);
    text_ = found == drafts.end() ? QString() : toQt(found->second);
    Q_EMIT changed();
}

void OwnWords::setText(const QString& text)
{
    if (text_ == text) {
        return;
    }
    text_ = text;
    if (!tablet_.drafts().put(page_, subject_, text.toStdString()) && !isTold_) {
        isTold_ = true;
        tablet_.setNotice(tablet_.label("app.pad.draft-not-stored"));
    }
    Q_EMIT changed();
}

} // namespace loopside::app
