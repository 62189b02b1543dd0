// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/files_away.h"

#include <algorithm>
#include <iterator>

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

std::optional<FilesAway::Saying> FilesAway::say()
{
    while (!wanted_.empty()) {
        if (auto file = read_(wanted_.front().name)) {
            return Saying{sync::pathOf(wanted_.front().place), *std::move(file)};
        }
        passOver();
    }
    offered_.clear();
    for (const File& file : found_) {
        if (offered_.size() < sync::filesListedMost && isThere_(file.place)) {
            offered_.push_back(file.place);
        }
    }
    return offered_.empty() ? std::nullopt : std::optional(Saying{std::string(sync::filesPath), bytesOf(offered_)});
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
    const auto isIn = [](const sync::FileList& files, const File& file) {
        return std::ranges::find(files, file.place) != files.end();
    };
    std::ranges::copy_if(found_, std::back_inserter(wanted_),
                         [&](const File& file) { return isIn(offered_, file) && isIn(*list, file); });
    std::erase_if(found_, [&](const File& file) { return isIn(offered_, file); });
    offered_.clear();
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
