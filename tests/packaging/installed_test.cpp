// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What each package installs, and that its parts name each other rightly.

#include "packaging/help.h"
#include "packaging/shell.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <regex>

using namespace loopside::test;

namespace {

namespace fs = std::filesystem;

using Paths = std::set<std::string>;

/// One package's files, installed into an empty folder.
class Installed
{
public:
    explicit Installed(const std::string& package)
    {
        const ShellRan ran = runInShell("DESTDIR=" + quotedForShell(folder_.path()) + " cmake --install "
                                        + quotedForShell(LOOPSIDE_BUILD) + " --component " + package);
        CAPTURE(ran.said);
        REQUIRE(ran.exitCode == 0);
    }

    /// By what comes behind the prefix: bin/loopside.
    [[nodiscard]] Paths files() const
    {
        Paths all;
        const std::regex tail(".*/((bin|etc|lib/systemd|share)/.*)");
        for (const auto& entry : fs::recursive_directory_iterator(folder_.path())) {
            std::smatch match;
            const std::string path = entry.path().string();
            if (entry.is_regular_file()) {
                all.insert(std::regex_match(path, match, tail) ? match[1].str() : path);
            }
        }
        return all;
    }

    [[nodiscard]] std::string program(const std::string& name) const
    {
        for (const auto& entry : fs::recursive_directory_iterator(folder_.path())) {
            if (entry.is_regular_file() && entry.path().filename() == name
                && entry.path().parent_path().filename() == "bin") {
                return entry.path().string();
            }
        }
        return {};
    }

private:
    TempFolder folder_;
};

std::string filesFolder()
{
    return "packaging/files/";
}

/// The value of `key` in a file of lines "key=value".
std::string valueOf(const std::string& text, const std::string& key)
{
    for (const std::string& line : linesOf(text)) {
        if (line.starts_with(key + "=")) {
            return line.substr(key.size() + 1);
        }
    }
    return {};
}

std::string found(const std::string& text, const std::string& pattern)
{
    std::smatch match;
    CAPTURE(pattern);
    REQUIRE(std::regex_search(text, match, std::regex(pattern)));
    return match[1];
}

/// What every package has, for its program and the section of the manual.
Paths withShare(const std::string& program, const std::string& section, Paths more)
{
    more.insert({"bin/" + program, "share/bash-completion/completions/" + program,
                 "share/doc/" + program + "/changelog.gz", "share/doc/" + program + "/copyright",
                 "share/doc/" + program + "/" + program + ".spdx.json",
                 "share/man/man" + section + "/" + program + "." + section + ".gz"});
    return more;
}

} // namespace

TEST_CASE("each package installs its program with all that belongs to it")
{
    CHECK(Installed("loopside").files()
          == withShare("loopside", "1",
                       {"lib/systemd/system/loopside-kiosk@.service", "share/applications/loopside.desktop",
                        "share/doc/loopside/guide-de.html", "share/doc/loopside/guide-de.pdf",
                        "share/doc/loopside/guide-es.html", "share/doc/loopside/guide-es.pdf",
                        "share/doc/loopside/guide.html", "share/doc/loopside/guide.pdf",
                        "share/icons/hicolor/scalable/apps/loopside.svg", "share/metainfo/loopside.metainfo.xml"}));
    CHECK(Installed("loopside-cli").files() == withShare("loopside-cli", "1", {}));
    CHECK(Installed("loopside-hub").files()
          == withShare("loopside-hub", "8", {"etc/loopside/hub.toml", "lib/systemd/system/loopside-hub.service"}));
}

TEST_CASE("an installed program runs, and tells its version")
{
    for (const auto& [name, built] : programs()) {
        const Installed installed(name);
        const ShellRan ran = runInShell(quotedForShell(installed.program(name)) + " --version");
        CAPTURE(name, ran.said);
        CHECK(ran.exitCode == 0);
        CHECK(ran.said.find(name + " " LOOPSIDE_VERSION "\n") != std::string::npos);
        const ShellRan path = runInShell("readelf -d " + quotedForShell(installed.program(name)));
        CHECK(path.exitCode == 0);
        CHECK(path.said.find("RUNPATH") == std::string::npos); // it looks for no library beside itself
    }
}

TEST_CASE("every file that packaging has to be installed is")
{
    const std::string rules = sourceText("packaging/cmake/installed.cmake");
    int files = 0;
    for (const char* folder : {"packaging/files", "packaging/debian"}) {
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(LOOPSIDE_SOURCE_DIR) / folder)) {
            if (entry.is_regular_file()) {
                const std::string name = entry.path().parent_path().filename().string() + "/"
                    + entry.path().filename().string();
                CAPTURE(name);
                CHECK(rules.find(entry.path().parent_path().filename() == "files"
                                     ? "/" + entry.path().filename().string()
                                     : name)
                      != std::string::npos);
                ++files;
            }
        }
    }
    CHECK(files > 10);
}

TEST_CASE("what the app needs to run and is not linked to is named by its package")
{
    std::string packages;
    for (const std::string& line : linesOf(sourceText(LOOPSIDE_BUILD "/CPackConfig.cmake"))) {
        if (line.find("CPACK_DEBIAN_LOOPSIDE_PACKAGE_DEPENDS") != std::string::npos
            || line.find("CPACK_DEBIAN_LOOPSIDE_PACKAGE_SUGGESTS") != std::string::npos) {
            packages += line;
        }
    }
    const std::regex line("^(build|run) +([^ ]+) .*$");
    const std::regex linked("^lib.*[0-9]$"); // found by dpkg-shlibdeps
    int unseen = 0;
    for (const std::string& told : linesOf(sourceText("packaging/dependencies"))) {
        std::smatch match;
        if (!std::regex_match(told, match, line)) {
            continue;
        }
        const std::string package = match[2];
        const bool isModule = package.starts_with("qml6-module-");
        if (isModule || (match[1] == "run" && !std::regex_match(package, linked))) {
            CAPTURE(package);
            CHECK(packages.find(package) != std::string::npos);
            ++unseen;
        }
    }
    CHECK(unseen > 6);
}

TEST_CASE("the desktop file is valid and names the program and its icon")
{
    const ShellRan ran = runInShell("desktop-file-validate --no-hints "
                                    + quotedForShell(LOOPSIDE_SOURCE_DIR "/" + filesFolder() + "loopside.desktop"));
    CAPTURE(ran.said);
    CHECK(ran.exitCode == 0);
    const std::string text = sourceText(filesFolder() + "loopside.desktop");
    CHECK(valueOf(text, "Exec") == "loopside");
    CHECK(fs::exists(LOOPSIDE_SOURCE_DIR "/" + filesFolder() + valueOf(text, "Icon") + ".svg"));
}

TEST_CASE("the metainfo is valid, names the desktop file and tells this version first, like the changelog")
{
    const ShellRan ran = runInShell(
        "appstreamcli validate --no-net "
        + quotedForShell(LOOPSIDE_SOURCE_DIR "/" + filesFolder() + "loopside.metainfo.xml"));
    CAPTURE(ran.said);
    CHECK(ran.exitCode == 0);
    const std::string text = sourceText(filesFolder() + "loopside.metainfo.xml");
    CHECK(fs::exists(LOOPSIDE_SOURCE_DIR "/" + filesFolder() + found(text, "<launchable[^>]*>([^<]*)<")));
    CHECK(found(text, "<binary>([^<]*)<") == "loopside");
    CHECK(found(text, "<icon type=\"stock\">([^<]*)<")
          == valueOf(sourceText(filesFolder() + "loopside.desktop"), "Icon"));
    CHECK(found(text, "<release version=\"([^\"]*)\"") == LOOPSIDE_VERSION);
    const std::string changelog = sourceText("packaging/debian/changelog");
    CHECK(found(changelog, "^loopside \\(([^)]*)\\)") == LOOPSIDE_VERSION);
    const ShellRan date = runInShell("date -u +%F -d " + quotedForShell(found(changelog, " -- [^>]*>  (.*)\n")));
    CHECK(date.said == found(text, "<release version=\"[^\"]*\" date=\"([^\"]*)\"") + "\n");
}

TEST_CASE("the units start the programs with commands and options that they have")
{
    const std::regex word("(^| )(--?[a-z-]+|[a-z-]+)(?= |$)");
    for (const auto& [unit, program] : {std::pair<std::string, std::string>{"loopside-hub.service", "loopside-hub"},
                                        {"loopside-kiosk@.service", "loopside"}}) {
        const std::string line = valueOf(sourceText(filesFolder() + unit), "ExecStart");
        const std::size_t place = line.find("/usr/bin/" + program);
        CAPTURE(unit, line);
        REQUIRE(place != std::string::npos);
        const std::string rest = line.substr(place + ("/usr/bin/" + program).size());
        const Named named = namedByProgram(programs().at(program)).at("");
        for (std::sregex_iterator at(rest.begin(), rest.end(), word), end; at != end; ++at) {
            const std::string told = (*at)[2];
            CAPTURE(told);
            CHECK((named.options.contains(told) || named.commands.contains(told)));
        }
    }
    CHECK(valueOf(sourceText(filesFolder() + "loopside-kiosk@.service"), "Restart") == "always");
}

TEST_CASE("the scripts of the packages can be read by sh, and none touches the home of a person")
{
    for (const auto& entry : fs::recursive_directory_iterator(LOOPSIDE_SOURCE_DIR "/packaging/debian")) {
        if (entry.path().filename().string().find("post") == 0 || entry.path().filename() == "prerm") {
            const ShellRan ran = runInShell("sh -n " + quotedForShell(entry.path().string()));
            CAPTURE(entry.path().string(), ran.said);
            CHECK(ran.exitCode == 0);
            const std::string text = sourceText(entry.path().string());
            for (const char* word : {"rm -r", "/home", "~", "HOME", "deluser"}) {
                CHECK(text.find(word) == std::string::npos);
            }
        }
    }
}
