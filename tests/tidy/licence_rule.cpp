// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/licence_rule.h"

#include "tidy/source_text.h"

#include <algorithm>
#include <fstream>
#include <set>
#include <sstream>

namespace loopside::tidy {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t headLength = 2000;
constexpr std::string_view statement = "SPDX-License-Identifier: ";

/// Whether `path` is named by `pattern`, in which a * stands for any signs, also a slash.
bool isNamed(std::string_view path, std::string_view pattern)
{
    const std::size_t star = pattern.find('*');
    if (star == std::string_view::npos) {
        return path == pattern;
    }
    if (path.substr(0, star) != pattern.substr(0, star)) {
        return false;
    }
    const std::string_view rest = pattern.substr(star + 1);
    for (std::size_t at = star; at <= path.size(); ++at) {
        if (isNamed(path.substr(at), rest)) {
            return true;
        }
    }
    return false;
}

bool isNamedByAny(std::string_view path, const std::vector<std::string>& patterns)
{
    return std::ranges::any_of(patterns, [&](const std::string& pattern) { return isNamed(path, pattern); });
}

bool isLicenceItself(const SourceFile& file)
{
    return isIn(file, "LICENSES") || isIn(file, ".reuse") || file.path == "LICENSE";
}

std::vector<std::string> wordsOf(const std::string& text)
{
    std::istringstream stream(text);
    std::vector<std::string> words;
    for (std::string word; stream >> word;) {
        words.push_back(word);
    }
    return words;
}

struct Stated
{
    std::vector<std::string> patterns;
    std::set<std::string> licences;
};

/// What stands behind "Files:", also on the lines that go on with it, and behind "License:".
Stated statedIn(std::string_view dep5)
{
    Stated stated;
    bool isFiles = false;
    for (const std::string& line : linesOf(dep5)) {
        isFiles = line.starts_with("Files:") || (isFiles && line.starts_with(' '));
        if (isFiles) {
            const auto more = wordsOf(line.starts_with(' ') ? line : line.substr(6));
            stated.patterns.insert(stated.patterns.end(), more.begin(), more.end());
        } else if (line.starts_with("License: ")) {
            stated.licences.insert(line.substr(9));
        }
    }
    return stated;
}

/// The licence in the head of a file; empty if none is stated there.
std::string licenceIn(const SourceFile& file)
{
    const std::size_t at = file.text.find(statement);
    if (at == std::string::npos) {
        return {};
    }
    const std::size_t from = at + statement.size();
    return file.text.substr(from, file.text.find_first_of(" \n*<", from) - from);
}

std::set<fs::path> leftOut(const fs::path& root)
{
    std::set<fs::path> folders = {root / ".git"};
    std::ifstream ignored(root / ".gitignore");
    for (std::string line; std::getline(ignored, line);) {
        if (line.size() > 2 && line.front() == '/' && line.back() == '/') {
            folders.insert(root / line.substr(1, line.size() - 2));
        }
    }
    return folders;
}

} // namespace

std::vector<SourceFile> readHeads(const fs::path& root)
{
    const auto skipped = leftOut(root);
    std::vector<SourceFile> heads;
    for (auto it = fs::recursive_directory_iterator(root); it != fs::recursive_directory_iterator(); ++it) {
        if (skipped.contains(it->path())) {
            it.disable_recursion_pending();
        } else if (it->is_regular_file() || it->is_symlink()) {
            std::string head(headLength, ' ');
            std::ifstream file(it->path(), std::ios::binary);
            file.read(head.data(), static_cast<std::streamsize>(head.size()));
            head.resize(static_cast<std::size_t>(file.gcount()));
            heads.push_back({it->path().lexically_relative(root).generic_string(), head});
        }
    }
    std::ranges::sort(heads, {}, &SourceFile::path);
    return heads;
}

Findings checkLicencesAreStated(const std::vector<SourceFile>& heads, std::string_view dep5)
{
    auto [patterns, licences] = statedIn(dep5);
    Findings findings;
    for (const SourceFile& file : heads) {
        const std::string own = licenceIn(file);
        if (isNamedByAny(file.path, patterns) || isLicenceItself(file)) {
            continue;
        }
        if (own.empty()) {
            findings.push_back({file.path, 1, "every file has a licence",
                                "begin it with its two SPDX lines, or name it in .reuse/dep5"});
        } else {
            licences.insert(own);
        }
    }
    for (const std::string& pattern : patterns) {
        if (std::ranges::none_of(heads, [&](const SourceFile& file) { return isNamed(file.path, pattern); })) {
            findings.push_back({".reuse/dep5", 1, "it names what is there (\"" + pattern + "\")", "take it out"});
        }
    }
    for (const std::string& licence : licences) {
        if (std::ranges::find(heads, "LICENSES/" + licence + ".txt", &SourceFile::path) == heads.end()) {
            findings.push_back({"LICENSES", 1, "the text of every licence is there (\"" + licence + "\")",
                                "put it in LICENSES/" + licence + ".txt"});
        }
    }
    return findings;
}

} // namespace loopside::tidy
