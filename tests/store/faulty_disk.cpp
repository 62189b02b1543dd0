// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/faulty_disk.h"

#include "store/files.h"

#include <sqlite3.h>

#include <algorithm>

namespace loopside::test {

namespace {

/// The one disk that is in place; SQLite's functions have nowhere else to find it.
FaultyDisk* disk = nullptr;
sqlite3_vfs* realDisk = nullptr;

/// Ours, with the real file behind it in the same memory.
struct File
{
    sqlite3_file base;
    std::string* path;

    [[nodiscard]] static File* from(sqlite3_file* file) { return reinterpret_cast<File*>(file); }
    [[nodiscard]] sqlite3_file* real() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};

sqlite3_file* real(sqlite3_file* file)
{
    return File::from(file)->real();
}

const sqlite3_io_methods& realMethods(sqlite3_file* file)
{
    return *real(file)->pMethods;
}

int closeFile(sqlite3_file* file)
{
    delete File::from(file)->path;
    return realMethods(file).xClose(real(file));
}

int writeFile(sqlite3_file* file, const void* bytes, int size, sqlite3_int64 at)
{
    int code = disk->codeForChange();
    if (code == SQLITE_OK) {
        code = realMethods(file).xWrite(real(file), bytes, size, at);
    }
    if (code == SQLITE_OK && File::from(file)->path != nullptr) {
        disk->wrote(*File::from(file)->path, at, {static_cast<const char*>(bytes), static_cast<std::size_t>(size)});
    }
    return code;
}

int cutFile(sqlite3_file* file, sqlite3_int64 size)
{
    int code = disk->codeForChange();
    if (code == SQLITE_OK) {
        code = realMethods(file).xTruncate(real(file), size);
    }
    if (code == SQLITE_OK && File::from(file)->path != nullptr) {
        disk->cut(*File::from(file)->path, size);
    }
    return code;
}

int syncFile(sqlite3_file* file, int flags)
{
    int code = disk->codeForNext();
    if (code == SQLITE_OK) {
        code = realMethods(file).xSync(real(file), flags);
    }
    if (code == SQLITE_OK && File::from(file)->path != nullptr && !disk->isLying()) {
        disk->keep(*File::from(file)->path);
    }
    return code;
}

const sqlite3_io_methods methods = {
    3,
    closeFile,
    [](sqlite3_file* f, void* to, int size, sqlite3_int64 at) {
        const int code = disk->codeForAnyOther();
        return code != SQLITE_OK ? code : realMethods(f).xRead(real(f), to, size, at);
    },
    writeFile,
    cutFile,
    syncFile,
    [](sqlite3_file* f, sqlite3_int64* size) {
        const int code = disk->codeForAnyOther();
        return code != SQLITE_OK ? code : realMethods(f).xFileSize(real(f), size);
    },
    [](sqlite3_file* f, int level) {
        const int code = disk->codeForAnyOther();
        return code != SQLITE_OK ? code : realMethods(f).xLock(real(f), level);
    },
    [](sqlite3_file* f, int level) { return realMethods(f).xUnlock(real(f), level); },
    [](sqlite3_file* f, int* result) { return realMethods(f).xCheckReservedLock(real(f), result); },
    [](sqlite3_file* f, int what, void* argument) { return realMethods(f).xFileControl(real(f), what, argument); },
    [](sqlite3_file* f) { return realMethods(f).xSectorSize(real(f)); },
    [](sqlite3_file* f) { return realMethods(f).xDeviceCharacteristics(real(f)); },
    [](sqlite3_file* f, int region, int size, int extend, volatile void** memory) {
        const int code = disk->codeForAnyOther();
        return code != SQLITE_OK ? code : realMethods(f).xShmMap(real(f), region, size, extend, memory);
    },
    [](sqlite3_file* f, int first, int count, int flags) {
        return realMethods(f).xShmLock(real(f), first, count, flags);
    },
    [](sqlite3_file* f) { realMethods(f).xShmBarrier(real(f)); },
    [](sqlite3_file* f, int remove) { return realMethods(f).xShmUnmap(real(f), remove); },
    [](sqlite3_file* f, sqlite3_int64 at, int size, void** memory) {
        return realMethods(f).xFetch(real(f), at, size, memory);
    },
    [](sqlite3_file* f, sqlite3_int64 at, void* memory) { return realMethods(f).xUnfetch(real(f), at, memory); },
};

int openFile(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* outFlags)
{
    File* ours = File::from(file);
    ours->base.pMethods = nullptr;
    int code = disk->codeForAnyOther();
    if (code == SQLITE_OK) {
        code = realDisk->xOpen(realDisk, name, ours->real(), flags, outFlags);
    }
    if (code == SQLITE_OK) {
        ours->path = name == nullptr ? nullptr : new std::string(name);
        ours->base.pMethods = &methods;
        if (name != nullptr) {
            disk->opened(name);
        }
    }
    return code;
}

sqlite3_vfs faultyVfs;

} // namespace

FaultyDisk::FaultyDisk()
{
    REQUIRE(disk == nullptr);
    realDisk = sqlite3_vfs_find(nullptr);
    faultyVfs = *realDisk;
    faultyVfs.pNext = nullptr;
    faultyVfs.zName = "faulty";
    faultyVfs.szOsFile = static_cast<int>(sizeof(File)) + realDisk->szOsFile;
    faultyVfs.xOpen = openFile;
    disk = this;
    sqlite3_vfs_register(&faultyVfs, 1);
}

FaultyDisk::~FaultyDisk()
{
    sqlite3_vfs_unregister(&faultyVfs);
    sqlite3_vfs_register(realDisk, 1);
    disk = nullptr;
}

void FaultyDisk::failFrom(int n, int code)
{
    countdown_ = n;
    code_ = code;
    hasFailed_ = false;
}

int FaultyDisk::codeForNext()
{
    if (countdown_ == 0) {
        return SQLITE_OK;
    }
    if (countdown_ > 1) {
        --countdown_;
        return SQLITE_OK;
    }
    hasFailed_ = true;
    return code_;
}

void FaultyDisk::opened(const std::string& path)
{
    synced_.try_emplace(path);
}

void FaultyDisk::keep(const std::string& path)
{
    synced_[path] = contentOf(path);
    since_[path].clear();
}

void FaultyDisk::wrote(const std::string& path, std::int64_t at, std::string_view bytes)
{
    since_[path].push_back({static_cast<std::size_t>(at), std::string(bytes), false});
}

void FaultyDisk::cut(const std::string& path, std::int64_t size)
{
    since_[path].push_back({static_cast<std::size_t>(size), {}, true});
}

void FaultyDisk::apply(std::string& content, const Change& change)
{
    if (change.isCut) {
        content.resize(change.at, '\0');
        return;
    }
    content.resize(std::max(content.size(), change.at + change.bytes.size()), '\0');
    content.replace(change.at, change.bytes.size(), change.bytes);
}

std::string FaultyDisk::afterCut(const std::string& path, PowerCut cut, RandomSource& random) const
{
    const auto synced = synced_.find(path);
    std::string content = synced == synced_.end() ? std::string() : synced->second;
    const auto found = since_.find(path);
    const std::vector<Change> changes = found == since_.end() ? std::vector<Change>() : found->second;
    const std::size_t chosen = changes.empty() ? 0 : random.next() % changes.size();
    for (std::size_t i = 0; i < changes.size(); ++i) {
        Change change = changes[i];
        if (i == chosen && cut == PowerCut::Tears) {
            change.bytes.resize(change.bytes.empty() ? 0 : random.next() % change.bytes.size());
        }
        if (i == chosen && cut == PowerCut::Garbles) {
            for (char& byte : change.bytes) {
                byte = static_cast<char>(random.next());
            }
        }
        const bool isBehind = i > chosen;
        const bool byChance = random.next() % 2 == 0;
        const bool isKept = cut == PowerCut::KeepsAll || (cut == PowerCut::KeepsFirst && !isBehind)
            || (cut == PowerCut::KeepsSome && byChance)
            || ((cut == PowerCut::Tears || cut == PowerCut::Garbles) && (!isBehind || byChance));
        if (isKept) {
            apply(content, change);
        }
    }
    return content;
}

} // namespace loopside::test
