// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/aside_file.h"

#include "ledger/line.h"

#include <set>
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
    return write(*before + line);
}

Result<std::size_t> AsideFile::takeFrom(const AsideFile& from)
{
    auto ours = text();
    const auto theirs = from.text();
    if (!ours || !theirs) {
        return fail(ours ? theirs.error() : ours.error());
    }
    std::set<std::string> known;
    std::istringstream kept(*ours);
    for (std::string line; std::getline(kept, line);) {
        known.insert(line);
    }
    if (!ours->empty() && ours->back() != '\n') {
        *ours += '\n';
    }
    std::size_t taken = 0;
    std::istringstream lines(*theirs);
    for (std::string line; std::getline(lines, line);) {
        if (known.insert(line).second) {
            *ours += line + '\n';
            ++taken;
        }
    }
    const Done written = taken > 0 ? write(*ours) : Done();
    return written ? Result<std::size_t>(taken) : fail(written.error());
}

Done AsideFile::write(const std::string& text)
{
    const std::string unfinished = path_ + ".new";
    const auto slash = path_.find_last_of('/');
    return disk_->write(unfinished, text)
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
