// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/files_away.h"

#include <algorithm>

namespace loopside::handover {

namespace {

constexpr std::size_t entriesAtOnce = 5000;

} // namespace

Result<bool> FilesAway::look()
{
    const auto entries = journal_->read(seen_, entriesAtOnce);
    if (!entries) {
        return fail(entries.error());
    }
    for (const ledger::Stored& stored : *entries) {
        if (auto name = sync::fileNamedBy(stored.entry)) {
            found_.push_back({{stored.entry.chain, stored.entry.header.sequence}, *std::move(name)});
        }
        seen_ = stored.position;
    }
    settle();
    return !entries->empty();
}

std::size_t FilesAway::offeredCount() const
{
    return std::min(found_.size(), sync::filesListedMost);
}

std::optional<FilesAway::Saying> FilesAway::say()
{
    while (!wanted_.empty()) {
        if (auto file = read_(wanted_.front().name)) {
            return Saying{sync::pathOf(wanted_.front().place), *std::move(file)};
        }
        passOver();
    }
    if (found_.empty()) {
        return std::nullopt;
    }
    sync::FileList offered;
    for (std::size_t i = 0; i < offeredCount(); ++i) {
        offered.push_back(found_[i].place);
    }
    return Saying{std::string(sync::filesPath), bytesOf(offered)};
}

Done FilesAway::hear(std::string_view answer)
{
    const auto list = sync::fileListFrom(answer);
    if (!list) {
        return fail(list.error());
    }
    if (!wanted_.empty()) {
        passOver(); // it is there
        return {};
    }
    for (std::size_t i = offeredCount(); i > 0; --i) {
        if (std::ranges::find(*list, found_.front().place) != list->end()) {
            wanted_.push_back(std::move(found_.front()));
        }
        found_.pop_front();
    }
    settle();
    return {};
}

void FilesAway::passOver()
{
    if (!wanted_.empty()) {
        wanted_.pop_front();
    }
    settle();
}

void FilesAway::settle()
{
    done_ = waiting() == 0 ? seen_ : done_;
}

} // namespace loopside::handover
