// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whatever the README gives somebody to type, touch or open is typed, looked up or opened here.

#include "hub/hub_program.h"
#include "packaging/help.h"
#include "packaging/shell.h"
#include "packaging/words_on_screen.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <regex>

using namespace loopside::test;

namespace {

namespace fs = std::filesystem;

std::string readme()
{
    return sourceText("README.md");
}

/// The part of the README under the title `title`.
std::string section(const std::string& title)
{
    const std::string text = readme();
    const std::size_t from = text.find("## " + title);
    CAPTURE(title);
    REQUIRE(from != std::string::npos);
    return text.substr(from, text.find("\n## ", from) - from);
}

/// What is to be typed: the lines that stand four places in, up to what explains them.
std::vector<std::string> linesToType(const std::string& text)
{
    std::vector<std::string> lines;
    for (const std::string& line : linesOf(text)) {
        if (line.starts_with("    ") && line.size() > 4 && line[4] != ' ') {
            lines.push_back(line.substr(4, line.find("   ", 4) - 4));
        }
    }
    return lines;
}

bool comesUp(const fs::path& path)
{
    for (int i = 0; i < 600; ++i) {
        if (fs::exists(path) && !fs::is_empty(path)) {
            return true;
        }
        static_cast<void>(runInShell("sleep 0.1"));
    }
    return false;
}

/// A home in which the app itself was at work for a moment, and what the placeholders of the README stand for there.
class Home
{
public:
    Home()
    {
        const std::string environment = "env -u XDG_DATA_HOME HOME=" + quotedForShell(folder_.path())
            + " XDG_RUNTIME_DIR=" + quotedForShell(folder_.path()) + " QT_QUICK_BACKEND=software ";
        const ShellRan started = runInShell(environment + quotedForShell(LOOPSIDE_APP) + " >/dev/null 2>&1 & echo $!");
        REQUIRE(comesUp(data() / "backups"));
        // Stopped as by a shutdown; waited for, as its folder is gone with the test.
        const std::string process = linesOf(started.said).at(0);
        const ShellRan ended = runInShell("kill " + process + " && while kill -0 " + process
                                          + " 2>/dev/null; do sleep 0.05; done");
        REQUIRE(ended.exitCode == 0);
    }

    [[nodiscard]] fs::path data() const { return fs::path(folder_.path()) / ".local/share/loopside"; }
    [[nodiscard]] std::string journal() const { return (data() / "journal.sqlite").string(); }
    [[nodiscard]] std::string file(const std::string& name) const { return folder_.file(name); }

private:
    TempFolder folder_;
};

/// Readings up to their limit that came by within `life` seconds, as `forecast` takes them.
std::string readings(int life, bool isOver)
{
    std::string text = isOver ? "run,t_s,dp,limit,t_limit_s\n" : "run,t_s,dp\n";
    for (int step = 1; step <= (isOver ? 25 : 15); ++step) {
        const double dp = 600.0 * std::exp(3.0 * (step / 25.0 - 1.0));
        text += "a," + std::to_string(step * life / 25) + "," + std::to_string(std::lround(dp));
        text += isOver ? ",600," + std::to_string(life) + "\n" : "\n";
    }
    return text;
}

void write(const std::string& path, const std::string& text)
{
    std::ofstream(path, std::ios::binary) << text;
}

/// `line` with each of `names` as a word of its own replaced by what it stands for.
std::string filledIn(std::string line, const std::map<std::string, std::string>& names)
{
    for (const auto& [name, meant] : names) {
        line = std::regex_replace(line, std::regex("(^|[ ])" + name + "(?=$|[ :])"), "$01" + meant);
    }
    return line;
}

} // namespace

TEST_CASE("lines to type are found, without what explains them")
{
    CHECK(
        linesToType("words\n\n    packaging/run --cli verify JOURNAL       checks\n         goes on\n    two --words\n")
        == std::vector<std::string>{"packaging/run --cli verify JOURNAL", "two --words"});
}

TEST_CASE("keys and links are found in Markdown")
{
    CHECK(keysNamedIn("1. **Set up.** *New run*, then *Tank*; 2 * 3 * 4")
          == std::vector<std::string>{"New run", "Tank"});
    CHECK(filesLinkedIn("![a](b/c.png) [d](e.md#f) [g](https://h.example) [i](#j)")
          == std::vector<std::string>{"b/c.png", "e.md"});
}

TEST_CASE("the README begins with the job, in one paragraph, and has its parts")
{
    const auto lines = linesOf(readme());
    REQUIRE(lines.size() > 10);
    CHECK(lines[0] == "# Loopside");
    CHECK(lines[2].starts_with("A logbook"));
    for (const char* title : {"Run it, test it", "The main job, in five steps", "The command line",
                              "Where the record is", "Handover", "Cautions", "Limits: what it does not know"}) {
        CHECK(section(title).size() > 200);
    }
    CHECK(std::ranges::count_if(filesLinkedIn(readme()), [](const auto& file) { return file.ends_with(".png"); }) == 4);
    const std::string steps = section("The main job, in five steps");
    CHECK(steps.find("\n5. ") != std::string::npos);
    CHECK(steps.find("\n6. ") == std::string::npos);
}

TEST_CASE("every file that the README links is there")
{
    for (const std::string& file : filesLinkedIn(readme())) {
        CAPTURE(file);
        CHECK(fs::exists(fs::path(LOOPSIDE_SOURCE_DIR) / file));
    }
}

TEST_CASE("every key that the README names is on the screens under that name")
{
    const auto words = englishWords();
    const auto keys = keysNamedIn(readme());
    CHECK(keys.size() > 20);
    for (const std::string& key : keys) {
        CAPTURE(key);
        CHECK(words.contains(key));
    }
}

TEST_CASE("every caution of the README is one that the screens tell")
{
    const auto words = englishWords();
    int cautions = 0;
    for (const std::string& line : linesOf(section("Cautions"))) {
        if (line.starts_with("- ")) {
            CAPTURE(line);
            CHECK(words.contains(line.substr(2)));
            ++cautions;
        }
    }
    CHECK(cautions >= 5);
}

TEST_CASE("every option in the README is one of a program or of a script that it names")
{
    std::set<std::string> known = {"--cli"};
    for (const auto& [program, path] : programs()) {
        for (const auto& [command, named] : namedByProgram(path)) {
            known.insert(named.options.begin(), named.options.end());
        }
    }
    CHECK(sourceText("packaging/run").find("--cli") != std::string::npos);
    const std::string text = readme();
    const std::regex option("[ (`](--[a-z][a-z-]*)");
    int options = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), option), end; at != end; ++at, ++options) {
        const std::string told = (*at)[1];
        CAPTURE(told);
        CHECK((known.contains(told) || told == "--now")); // --now is systemctl's
    }
    CHECK(options > 40);
}

TEST_CASE("every script that the README gives to type is there and can be run")
{
    const std::string text = readme();
    const std::regex script("packaging/[a-z-]+");
    for (std::sregex_iterator at(text.begin(), text.end(), script), end; at != end; ++at) {
        const fs::path path = fs::path(LOOPSIDE_SOURCE_DIR) / at->str();
        CAPTURE(path.string());
        CHECK(fs::exists(path));
        CHECK((fs::status(path).permissions() & fs::perms::owner_exec) != fs::perms::none);
    }
}

TEST_CASE("a tablet's folder is where the README says, with nothing in it that the README does not name")
{
    const Home home;
    const std::string told = section("Where the record is");
    CHECK(told.find("`~/.local/share/loopside`") != std::string::npos);
    const std::set<std::string> besideJournal = {".end", ".lock", "-shm", "-wal"}; // its witness, lock and log
    for (const auto& entry : fs::directory_iterator(home.data())) {
        std::string name = entry.path().filename().string();
        CAPTURE(name);
        for (const std::string& ending : besideJournal) {
            if (name.ends_with(ending)) {
                name.resize(name.size() - ending.size());
            }
        }
        CHECK(told.find("`" + name + "`") != std::string::npos);
    }
}

TEST_CASE("every line of the README's command line runs, in their order, and no command is left out")
{
    HubProgram hub;
    hub.start();
    const Home home;
    const std::string cli = quotedForShell(LOOPSIDE_CLI);
    const std::string story = LOOPSIDE_SOURCE_DIR "/tests/stories/f04_hungry_stage.json";
    fs::copy(home.data(), home.file("fresh"), fs::copy_options::recursive); // a story is of a device that no hub knows
    REQUIRE(runInShell(cli + " replay " + story + " --journal " + home.journal()).exitCode == 0);
    const std::string entries = runInShell(cli + " record --json " + home.journal()).said;
    std::smatch run;
    REQUIRE(std::regex_search(entries, run, std::regex("\"run\":\"([0-9a-f-]{36})\"[^\\n]*\"kind\":\"run-opened\"")));
    write(home.file("r.csv"), readings(9000, false));
    write(home.file("h.csv"), readings(8000, true));
    for (const char* folder : {"folder", "backups"}) {
        fs::create_directory(home.file(folder));
    }
    const std::map<std::string, std::string> names = {{"BACKUPS", home.file("backups")},
                                                      {"BUNDLE", home.file("b.bundle")},
                                                      {"CODE", hub.code()},
                                                      {"EXPORT", home.file("export")},
                                                      {"FOLDER", home.file("folder")},
                                                      {"H.csv", home.file("h.csv")},
                                                      {"HUB:8443", hub.address()},
                                                      {"JOURNAL", home.journal()},
                                                      {"KEYFILE", (home.data() / "device.key").string()},
                                                      {"NEWJOURNAL", home.file("new.sqlite")},
                                                      {"R.csv", home.file("r.csv")},
                                                      {"RUN", run[1]},
                                                      {"TABLET", home.data().string()},
                                                      {"TANK", "BO-2"},
                                                      {"YEAR", "2026"},
                                                      {"record.json", home.file("record.json")},
                                                      {"record.pdf", home.file("record.pdf")},
                                                      {"labels.pdf", home.file("labels.pdf")}};
    auto ofOneDevice = names;
    ofOneDevice["JOURNAL"] = home.file("fresh/journal.sqlite");
    std::set<std::string> commands;
    for (const std::string& line : linesToType(section("The command line"))) {
        const bool isHandover = line.find(" handover ") != std::string::npos;
        REQUIRE(line.starts_with("packaging/run --cli "));
        const std::string words = line.substr(std::string("packaging/run --cli ").size());
        commands.insert(words.substr(0, words.find(' ')));
        const ShellRan ran = runInShell("cd " LOOPSIDE_SOURCE_DIR " && " + cli + " "
                                        + filledIn(words, isHandover ? ofOneDevice : names));
        CAPTURE(line, ran.said);
        if (words.starts_with("take-records ")) { // to be seen in it: a number that reads in two ways is left out
            CHECK(ran.exitCode == 1);
            CHECK(ran.said.find("2 new, 1 changed, 0 the same, 1 cannot be read") != std::string::npos);
        } else {
            CHECK(ran.exitCode == 0);
        }
    }
    CHECK(commands == namedByProgram(LOOPSIDE_CLI).at("").commands);
    for (const char* made : {"record.pdf", "record.json", "labels.pdf", "export", "new.sqlite", "b.bundle"}) {
        CAPTURE(made);
        CHECK(fs::exists(home.file(made)));
    }
}
