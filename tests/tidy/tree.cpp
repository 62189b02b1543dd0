// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/tree.h"

#include "tidy/include_rules.h"
#include "tidy/listing_rule.h"
#include "tidy/qml_rules.h"
#include "tidy/result_rule.h"
#include "tidy/source_text.h"
#include "tidy/text_rules.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <sstream>

namespace loopside::tidy {

namespace {

namespace fs = std::filesystem;

constexpr std::array folders = {".ci", "assets", "packaging", "qml", "schema", "src", "tests"};
constexpr std::array topFiles = {"CMakeLists.txt", "DEVELOPERS.md", "README.md"};

bool isText(const fs::path& path)
{
    static const std::vector<std::string> endings = {"",      ".h",  ".cpp", ".cmake",   ".csv", ".desktop",
                                                     ".json", ".md", ".qml", ".service", ".sh",  ".sql",
                                                     ".svg",  ".ts", ".txt", ".xml"};
    return std::ranges::find(endings, path.extension().string()) != endings.end();
}

Done readInto(std::vector<SourceFile>& files, const fs::path& root, const fs::path& path)
{
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    if (!stream) {
        return fail(Errc::Io, path.string() + " cannot be read");
    }
    files.push_back({path.lexically_relative(root).generic_string(), std::move(text).str()});
    return {};
}

std::vector<fs::path> textFilesIn(const fs::path& folder)
{
    std::vector<fs::path> paths;
    std::error_code error;
    for (const auto& entry : fs::recursive_directory_iterator(folder, error)) {
        if (entry.is_regular_file() && !entry.is_symlink() && isText(entry.path()) && entry.file_size() > 0) {
            paths.push_back(entry.path());
        }
    }
    std::ranges::sort(paths);
    return paths;
}

} // namespace

Result<std::vector<SourceFile>> readTree(const fs::path& root)
{
    if (!fs::is_directory(root / "src")) {
        return fail(Errc::NotFound, root.string() + " has no folder src");
    }
    std::vector<fs::path> paths;
    for (const char* name : topFiles) {
        if (fs::exists(root / name)) {
            paths.push_back(root / name);
        }
    }
    for (const char* folder : folders) {
        std::ranges::copy(textFilesIn(root / folder), std::back_inserter(paths));
    }
    std::vector<SourceFile> files;
    for (const fs::path& path : paths) {
        if (auto done = readInto(files, root, path); !done) {
            return fail(done.error());
        }
    }
    return files;
}

Findings checkTree(const std::vector<SourceFile>& files, const Layers& layers)
{
    Findings findings = checkFilesAreListed(files);
    const auto add = [&](const Findings& more) { findings.insert(findings.end(), more.begin(), more.end()); };
    for (const SourceFile& file : files) {
        add(checkLayers(file, layers));
        for (const auto rule : {checkOutsideIncludes, checkResultsAreKept, checkLicence, checkDataSource, checkWords,
                                checkMachinePaths, checkTestNames, checkColours, checkConsole, checkWrittenWords}) {
            add(rule(file));
        }
    }
    return findings;
}

} // namespace loopside::tidy
