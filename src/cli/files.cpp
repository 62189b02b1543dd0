// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/files.h"

#include "ledger/json.h"
#include "store/backup.h"
#include "store/disk.h"
#include "store/recovery.h"
#include "words/words.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
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

Result<site::Site> readSite(const std::string& path)
{
    if (path.empty()) {
        return site::Site{};
    }
    constexpr std::size_t bytesMax = 16'000'000;
    return readFile(path, bytesMax).and_then(site::siteFrom);
}

Result<Id> personIn(const site::Site& site, const std::string& person)
{
    const auto known = std::find_if(site.people.begin(), site.people.end(),
                                    [&](const site::SitePerson& one) { return one.name == person; });
    if (known != site.people.end()) {
        return known->id;
    }
    const auto id = idFromText(person);
    return id && !id->isNone()
        ? id
        : fail(Errc::NotFound, "--person: \"" + person + "\" is no name of the site file, and no id");
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

Result<std::unique_ptr<store::SqliteJournal>> openExisting(const std::string& path)
{
    return mustBeThere(path).and_then([&] { return store::openWhole(path, store::backupFolderOf(path)); });
}

Result<std::unique_ptr<store::SqliteJournal>> openHeld(const std::string& path, const std::string& language)
{
    const auto words = words::Words::in(language);
    auto opened = words ? store::openOrRecover(path, store::backupFolderOf(path), wallMs()) : fail(words.error());
    if (!opened) {
        return fail(opened.error());
    }
    if (const Message notice = opened->notice(); !notice.id.empty()) {
        std::cerr << "loopside-cli: " << words->say(notice) << '\n';
    }
    return std::move(opened->journal);
}

Result<Held> openToWrite(const std::string& path, const std::string& language)
{
    auto lock = store::InstanceLock::take(path);
    auto journal = lock ? openHeld(path, language) : fail(lock.error());
    return journal ? Result<Held>(Held{*std::move(lock), *std::move(journal)}) : fail(journal.error());
}

std::int64_t wallMs()
{
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    return std::chrono::duration_cast<std::chrono::milliseconds>(now).count();
}

} // namespace loopside::cli
