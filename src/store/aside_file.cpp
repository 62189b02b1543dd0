// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/aside_file.h"

#include "ledger/line.h"

#include <sstream>

namespace loopside::store {

namespace {

constexpr std::size_t bytesMax = std::size_t{256} << 20U;

} // namespace

Result<std::string> AsideFile::text() const
{
    auto text = disk_->read(path_, bytesMax);
    if (text && text->size() > bytesMax) {
        return fail(Errc::OutOfRange, path_ + " is full: move it away when somebody has looked at it");
    }
    return !text && text.error().code == Errc::NotFound ? Result<std::string>(std::string()) : text;
}

Done AsideFile::keep(const ledger::Entry& entry)
{
    auto before = text();
    if (!before) {
        return fail(before.error());
    }
    const std::string line = ledger::lineOf(entry) + '\n';
    if (before->find(line) != std::string::npos) {
        return {};
    }
    const std::string unfinished = path_ + ".new";
    const auto slash = path_.find_last_of('/');
    return disk_->write(unfinished, *before + line)
        .and_then([&] { return disk_->sync(unfinished); })
        .and_then([&] { return disk_->rename(unfinished, path_); })
        .and_then([&] { return disk_->syncFolder(slash == std::string::npos ? "." : path_.substr(0, slash)); });
}

Result<std::vector<ledger::Entry>> AsideFile::all() const
{
    const auto kept = text();
    if (!kept) {
        return fail(kept.error());
    }
    std::vector<ledger::Entry> entries;
    std::istringstream lines(*kept);
    for (std::string line; std::getline(lines, line);) {
        auto entry = ledger::entryFromLine(line);
        if (!entry) {
            return fail(Errc::Malformed, path_ + ": " + entry.error().sentence);
        }
        entries.push_back(*std::move(entry));
    }
    return entries;
}

} // namespace loopside::store
