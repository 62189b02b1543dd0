// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/crash_disk.h"

#include <algorithm>

namespace loopside::test {

namespace {

std::string folderOf(const std::string& path)
{
    const auto slash = path.find_last_of('/');
    return slash == std::string::npos ? "." : path.substr(0, slash);
}

} // namespace

Done CrashDisk::next()
{
    if (countdown_ == 1) {
        countdown_ = isForGood_ ? 1 : 0;
        return fail(Errc::Io, "the disk failed");
    }
    countdown_ -= countdown_ > 1 ? 1 : 0;
    return {};
}

Done CrashDisk::makeFolder(const std::string&)
{
    return next();
}

Done CrashDisk::write(const std::string& path, std::string_view content)
{
    const Done done = next();
    // A write that fails may have written a part.
    files_[path] = std::string(done ? content : content.substr(0, random_.next() % (content.size() + 1)));
    synced_.erase(path);
    return done;
}

Done CrashDisk::sync(const std::string& path)
{
    const Done done = next();
    if (done && !isLying_) {
        synced_[path] = files_.at(path);
    }
    return done;
}

Done CrashDisk::rename(const std::string& from, const std::string& to)
{
    const Done done = next();
    if (done) {
        files_[to] = std::exchange(files_.at(from), {});
        files_.erase(from);
        synced_.erase(to);
        if (const auto content = synced_.find(from); content != synced_.end()) {
            synced_[to] = content->second;
            synced_.erase(content);
        }
    }
    return done;
}

Done CrashDisk::syncFolder(const std::string& path)
{
    const Done done = next();
    if (!done || isLying_) {
        return done;
    }
    std::erase_if(onDisk_, [&](const auto& file) { return folderOf(file.first) == path; });
    for (const auto& [name, content] : files_) {
        if (folderOf(name) == path) {
            const auto known = synced_.find(name);
            onDisk_[name] = known == synced_.end() ? std::string() : known->second; // a name without its content
        }
    }
    return done;
}

Done CrashDisk::remove(const std::string& path)
{
    const Done done = next();
    if (done) {
        files_.erase(path);
        synced_.erase(path);
    }
    return done;
}

Result<std::string> CrashDisk::read(const std::string& path, std::size_t most) const
{
    const auto file = files_.find(path);
    if (file == files_.end()) {
        return fail(Errc::NotFound, path + " is not there");
    }
    return file->second.substr(0, most + 1);
}

Result<std::vector<std::string>> CrashDisk::list(const std::string& path) const
{
    std::vector<std::string> names;
    for (const auto& [name, content] : files_) {
        if (folderOf(name) == path) {
            names.push_back(name.substr(path.size() + 1));
        }
    }
    return names;
}

void CrashDisk::cutPower()
{
    std::map<std::string, std::string> left;
    for (const auto& [name, content] : onDisk_) { // may be gone where a program removed or renamed it since
        if (files_.contains(name) || random_.next() % 2 == 0) {
            left[name] = content;
        }
    }
    for (const auto& [name, content] : files_) { // may have its new name; its content as far as it was synced
        const auto sure = synced_.find(name);
        const bool hasName = onDisk_.contains(name) || random_.next() % 2 == 0;
        if (hasName && sure != synced_.end()) {
            left[name] = sure->second;
        } else if (hasName) {
            left[name] = content.substr(0, random_.next() % (content.size() + 1));
        }
    }
    files_ = left;
    onDisk_ = left;
    synced_ = left;
    countdown_ = 0;
}

} // namespace loopside::test
