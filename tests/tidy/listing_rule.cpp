// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/listing_rule.h"

#include "tidy/source_text.h"

#include <map>
#include <set>
#include <sstream>
#include <string_view>

namespace loopside::tidy {

namespace {

using Words = std::set<std::string, std::less<>>;

/// The words of a build file, comments left out; a path from the file's own folder counts from there.
Words wordsOf(std::string_view text)
{
    constexpr std::string_view here = "${CMAKE_CURRENT_SOURCE_DIR}/";
    Words words;
    for (const std::string& line : linesOf(text)) {
        std::string code = line.substr(0, line.find('#'));
        for (char& sign : code) {
            sign = std::string_view("()\";").find(sign) == std::string_view::npos ? sign : ' ';
        }
        std::istringstream stream(code);
        for (std::string word; stream >> word;) {
            words.insert(word.starts_with(here) ? word.substr(here.size()) : word);
        }
    }
    return words;
}

bool mustBeListed(const SourceFile& file)
{
    return (isIn(file, "src") && endsIn(file, {".h", ".cpp", ".qml"})) || (isIn(file, "qml") && endsIn(file, {".qml"}))
        || (isIn(file, "tests") && endsIn(file, {".cpp"}));
}

/// Whether the build file of the file's folder, or of one above it, names it by its path from there.
bool isListed(std::string_view path, const std::map<std::string, Words, std::less<>>& listings)
{
    for (std::size_t slash = path.rfind('/'); slash != std::string_view::npos && slash > 0;
         slash = path.rfind('/', slash - 1)) {
        const auto listing = listings.find(path.substr(0, slash));
        if (listing != listings.end() && listing->second.contains(path.substr(slash + 1))) {
            return true;
        }
    }
    return false;
}

} // namespace

Findings checkFilesAreListed(const std::vector<SourceFile>& files)
{
    constexpr std::string_view buildFile = "/CMakeLists.txt";
    std::map<std::string, Words, std::less<>> listings;
    for (const SourceFile& file : files) {
        if (file.path.ends_with(buildFile)) {
            listings[file.path.substr(0, file.path.size() - buildFile.size())] = wordsOf(file.text);
        }
    }
    Findings findings;
    for (const SourceFile& file : files) {
        if (mustBeListed(file) && !isListed(file.path, listings)) {
            findings.push_back({file.path, 1, "every source file is named in a CMakeLists.txt",
                                "add it to the list in its folder, or remove it"});
        }
    }
    return findings;
}

} // namespace loopside::tidy
