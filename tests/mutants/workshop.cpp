// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "mutants/workshop.h"

#include <nlohmann/json.hpp>
#include <sys/wait.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace loopside::mutants {

namespace {

constexpr int exitOfTimeout = 124; // of the program timeout
constexpr int exitOfKill = 137;    // and where it had to be rough

std::string textOf(const std::string& path)
{
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

int exitCodeOf(const std::string& line)
{
    const int status = std::system(line.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : exitOfKill;
}

/// `text` with the first `from` as `instead`; unchanged if there is none.
std::string exchanged(std::string text, const std::string& from, const std::string& instead)
{
    const std::size_t at = text.find(from);
    return at == std::string::npos ? text : text.replace(at, from.size(), instead);
}

/// The word behind the first `mark`.
std::string wordBehind(const std::string& line, const std::string& mark)
{
    const std::size_t at = line.find(mark);
    return at == std::string::npos ? ""
                                   : line.substr(at + mark.size(), line.find(' ', at + mark.size()) - at - mark.size());
}

/// The line by which ninja links `program`, without what it does before and behind it; empty if it does not say.
std::string linkLine(const std::string& build, const std::string& program, const std::string& scratch)
{
    const std::string told = scratch + "/told";
    exitCodeOf("ninja -C '" + build + "' -t commands " + program + " 2>/dev/null | grep -- '/" + program + " ' > "
               + told);
    std::string found;
    std::istringstream lines(textOf(told));
    for (std::string line; std::getline(lines, line);) {
        if (wordBehind(line, " -o ").ends_with("/" + program)) {
            found = line;
        }
    }
    found = exchanged(found, ": && ", "");
    return found.substr(0, found.find(" && "));
}

} // namespace

std::string_view nameOf(Outcome outcome)
{
    switch (outcome) {
    case Outcome::Killed:
        return "killed";
    case Outcome::Survived:
        return "survived";
    case Outcome::NotCompiled:
        return "not compiled";
    case Outcome::TimedOut:
        break;
    }
    return "timed out";
}

Result<Workshop> Workshop::open(const std::string& build, const std::vector<std::string>& programs,
                                const std::string& scratch, int limitS)
{
    Workshop made;
    made.build_ = build;
    made.scratch_ = scratch;
    made.limitS_ = limitS;
    for (const std::string& name : programs) {
        const std::string line = linkLine(build, name, scratch);
        const std::string output = wordBehind(line, " -o ");
        if (output.empty()) {
            return fail(Errc::NotFound, build + " does not tell how " + name + " is linked.");
        }
        made.programs_.push_back(
            {name, exchanged(line, " -o " + output, " -o " + scratch + "/" + name + " " + scratch + "/mutant.o")});
    }
    const auto commands = nlohmann::json::parse(textOf(build + "/compile_commands.json"), nullptr, false);
    if (!commands.is_array()) {
        return fail(Errc::NotFound, build + " has no compile_commands.json.");
    }
    for (const auto& one : commands) {
        const std::string file = one.at("file");
        if (const std::size_t at = file.find("/src/"); at != std::string::npos) {
            made.compiled_.push_back({file.substr(at + 1), file, one.at("command")});
        }
    }
    std::ranges::sort(made.compiled_, {}, &Compiled::path);
    return made;
}

std::vector<Source> Workshop::sourcesOf(const std::string& module) const
{
    std::vector<Source> sources;
    for (const Compiled& one : compiled_) {
        if (one.path.starts_with("src/" + module + "/") && !one.path.ends_with(".hxx.cxx")) {
            sources.push_back({one.path, textOf(one.file)});
        }
    }
    return sources;
}

bool Workshop::compiles(const Source& source, const std::string& text) const
{
    const auto found = std::ranges::find(compiled_, source.path, &Compiled::path);
    const std::string mutant = scratch_ + "/mutant.cpp";
    std::ofstream(mutant) << text;
    std::string line = exchanged(found->line, " -o " + wordBehind(found->line, " -o "),
                                 " -o " + scratch_ + "/mutant.o");
    line = exchanged(line, " -c " + found->file, " -w -c " + mutant);
    return exitCodeOf("cd '" + build_ + "' && " + line + " > " + scratch_ + "/said 2>&1") == 0;
}

Tried Workshop::tryOut(const Source& source, const std::string& text) const
{
    if (!compiles(source, text)) {
        return {Outcome::NotCompiled, {}};
    }
    for (const Program& program : programs_) {
        const std::string said = " > " + scratch_ + "/said 2>&1";
        if (exitCodeOf("cd '" + build_ + "' && " + program.link + said) != 0) {
            return {Outcome::NotCompiled, {}};
        }
        const int code = exitCodeOf("cd " + scratch_ + " && timeout -k 5 " + std::to_string(limitS_) + " ./"
                                    + program.name + " --abort" + said);
        if (code == exitOfTimeout || code == exitOfKill) {
            return {Outcome::TimedOut, program.name};
        }
        if (code != 0) {
            return {Outcome::Killed, program.name};
        }
    }
    return {Outcome::Survived, {}};
}

} // namespace loopside::mutants
