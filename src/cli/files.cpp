// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/files.h"

#include "ledger/json.h"
#include "store/sqlite_journal.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace loopside::cli {

Result<std::string> readFile(const std::string& path, std::size_t bytesMax)
{
    std::error_code problem;
    if (std::filesystem::is_directory(path, problem)) {
        return fail(Errc::Io, path + " is a folder, not a file");
    }
    std::ifstream file(path, std::ios::binary);
    if (!file) {
        return fail(Errc::Io, path + " cannot be opened: " + std::strerror(errno));
    }
    std::string text;
    std::array<char, 65536> piece = {}; // not all that may come at once: most files are short
    while (text.size() <= bytesMax && file) {
        file.read(piece.data(), static_cast<std::streamsize>(std::min(piece.size(), bytesMax + 1 - text.size())));
        text.append(piece.data(), static_cast<std::size_t>(file.gcount()));
    }
    if (file.bad()) {
        return fail(Errc::Io, path + " cannot be read");
    }
    return text;
}

Result<StoryFile> readStory(const std::string& path)
{
    auto text = readFile(path, ledger::JsonLimits{}.bytes);
    if (!text) {
        return fail(text.error());
    }
    auto story = story::parseStory(*text);
    if (!story) {
        return fail(story.error().code, path + ": " + story.error().sentence);
    }
    return StoryFile{*std::move(text), *std::move(story)};
}

Done mustBeThere(const std::string& path)
{
    std::error_code problem;
    return std::filesystem::exists(path, problem) ? Done() : fail(Errc::NotFound, path + " is not there");
}

Result<std::unique_ptr<ledger::Journal>> openExisting(const std::string& path)
{
    if (const Done there = mustBeThere(path); !there) {
        return fail(there.error());
    }
    auto journal = store::SqliteJournal::open(path);
    if (!journal) {
        return fail(journal.error());
    }
    return std::unique_ptr<ledger::Journal>(*std::move(journal));
}

std::int64_t wallMs()
{
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return std::chrono::duration_cast<std::chrono::milliseconds>(now).count();
}

} // namespace loopside::cli
