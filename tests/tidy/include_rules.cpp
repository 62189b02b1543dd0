// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/include_rules.h"

#include "tidy/source_text.h"

#include <algorithm>
#include <array>
#include <regex>
#include <vector>

namespace loopside::tidy {

namespace {

struct Include
{
    std::string name;
    bool quoted;
    std::size_t line;
};

std::vector<Include> includesOf(const SourceFile& file)
{
    static const std::regex pattern(R"(^\s*#\s*include\s*(["<])([^">]+)[">])");
    std::vector<Include> includes;
    std::size_t number = 0;
    for (const std::string& line : linesOf(withoutComments(file.text))) {
        ++number;
        std::smatch match;
        if (std::regex_search(line, match, pattern)) {
            includes.push_back({match[2].str(), match[1].str() == "\"", number});
        }
    }
    return includes;
}

/// The first folder of `path`; empty if there is none.
std::string firstFolder(const std::string& path)
{
    const std::size_t slash = path.find('/');
    return slash == std::string::npos ? "" : path.substr(0, slash);
}

std::string moduleOf(const SourceFile& file)
{
    return isIn(file, "src") ? firstFolder(file.path.substr(4)) : "";
}

/// What the build makes: embedded tables, and Qt's meta-object code.
bool isGenerated(const Include& include)
{
    return include.name.starts_with("embedded/") || include.name.ends_with(".moc");
}

/// Headers whose name begins with `prefix` belong to `library`; only `modules` may include them.
struct OutsideRule
{
    std::string_view prefix;
    std::string_view library;
    std::vector<std::string_view> modules;
};

const std::vector<OutsideRule>& outsideRules()
{
    static const std::vector<OutsideRule> rules = {
        {"sqlite3.h", "SQLite", {"store"}},
        {"sodium", "libsodium", {"ledger", "hub"}},
        {"nlohmann/", "the JSON library", {"ledger", "words", "story", "site", "sync", "report", "cli", "app", "hub"}},
        {"tl/", "tl-expected", {"base"}},
        {"httplib.h", "the HTTP library", {"cli", "hub"}},
        {"libpq-fe.h", "PostgreSQL", {"hub"}},
        {"openssl/", "OpenSSL", {"cli", "hub"}},
        {"spdlog/", "the logging library", {"hub"}},
        {"toml++/", "the TOML library", {"hub"}},
    };
    return rules;
}

bool isQt(const std::string& name)
{
    static const std::regex pattern("^(Q[A-Za-z]|qqml|qt[A-Z])");
    return std::regex_search(name, pattern);
}

bool isOneOf(std::string_view word, const std::vector<std::string_view>& words)
{
    return std::ranges::find(words, word) != words.end();
}

bool isPlainCore(const std::string& module)
{
    return isOneOf(module,
                   {"base", "units", "oil", "filtration", "forecast", "run", "ledger", "words", "story", "practice",
                    "site", "sync", "report"});
}

/// Standard headers by which a file, a thread, the clock or the operating system come in.
bool isOutsideWorld(const std::string& name)
{
    return name.starts_with("sys/")
        || isOneOf(name,
                   {"condition_variable", "ctime", "filesystem", "fstream", "future", "iostream", "mutex",
                    "shared_mutex", "thread", "time.h", "unistd.h"});
}

std::string joined(const std::vector<std::string_view>& words)
{
    std::string list;
    for (const std::string_view word : words) {
        list += (list.empty() ? "" : ", ") + std::string(word);
    }
    return list;
}

} // namespace

Findings checkLayers(const SourceFile& file, const Layers& layers)
{
    Findings findings;
    const std::string module = moduleOf(file);
    if (module.empty() || !endsIn(file, {".h", ".cpp"})) {
        return findings;
    }
    if (!layers.has(module)) {
        return {{file.path, 1, "the module " + module + " is not in layers.txt",
                 "name it by project_module(" + module + " …) and add its folder to CMakeLists.txt"}};
    }
    for (const Include& include : includesOf(file)) {
        const std::string other = firstFolder(include.name);
        if ((!include.quoted && !layers.has(other)) || isGenerated(include)) {
            continue;
        }
        if (!include.quoted || other.empty()) {
            findings.push_back({file.path, include.line, "an include within the project names its module in quotes",
                                "write #include \"module/file.h\""});
        }
        if (!other.empty() && !layers.mayUse(module, other)) {
            findings.push_back({file.path, include.line,
                                "includes point down the layers; " + module + " does not depend on " + other,
                                "move what both need to a module below, or let " + module + " own a door that " + other
                                    + " fits; if the layering is wrong, change DEPENDS of " + module});
        }
    }
    return findings;
}

Findings checkOutsideIncludes(const SourceFile& file)
{
    Findings findings;
    const std::string module = moduleOf(file);
    if (module.empty() || !endsIn(file, {".h", ".cpp"})) {
        return findings;
    }
    const std::vector<std::string_view> qtModules = {"position", "report", "paper", "app"};
    for (const Include& include : includesOf(file)) {
        const auto refuse = [&](std::string_view what, const std::string& wayOut) {
            findings.push_back({file.path, include.line, module + " may not include " + std::string(what), wayOut});
        };
        for (const OutsideRule& rule : outsideRules()) {
            if (include.name.starts_with(rule.prefix) && !isOneOf(module, rule.modules)) {
                refuse(rule.library, "go through " + joined(rule.modules) + ", where it belongs");
            }
        }
        if (isQt(include.name) && !isOneOf(module, qtModules)) {
            refuse("Qt", "keep it in " + joined(qtModules) + " and hand plain values down");
        }
        if (isPlainCore(module) && isOutsideWorld(include.name)) {
            refuse("<" + include.name + ">",
                   "the plain core has no file, thread or clock: take the value as an argument, or own a door");
        }
    }
    return findings;
}

} // namespace loopside::tidy
