// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// mutants BUILD MODULE --tests PROGRAM… [--count N] [--seed N] [--limit S] [--table FILE]: puts small faults into the
// files of src/MODULE, one at a time and never into the tree, and says which of them the test programs notice. BUILD is
// a build folder in which the programs were built; the preset `mutants` makes one that compiles soon. Ends with 0, also
// where mutants survive: each of those is for a person to judge. Ends with 2 if the tests fail without a fault.
//
// FILE gets a line for each mutant; those that stand there already are not tried again, so that it can be gone on with.

#include "mutants/mutation.h"
#include "mutants/workshop.h"
#include "tidy/source_text.h"

#include <CLI/CLI.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>

namespace {

using namespace loopside;
using namespace loopside::mutants;

struct Asked
{
    std::string build, module;
    std::vector<std::string> programs;
    std::size_t count = 100;
    std::uint64_t seed = 1;
    int limitS = 120;
    std::string table = "mutants.tsv";
};

struct Candidate
{
    const Source* source;
    Mutation mutation;
};

/// The line of `text` in which the sign at `offset` stands, without blanks around it.
std::string lineOf(const std::string& text, std::size_t offset)
{
    std::string line = tidy::linesOf(text).at(tidy::lineAt(text, offset) - 1);
    line.erase(0, line.find_first_not_of(' '));
    return line;
}

/// What a mutant is, as it begins its line of the table.
std::string told(const Candidate& candidate)
{
    const auto& [kind, offset, length, instead] = candidate.mutation;
    const std::string& text = candidate.source->text;
    const std::size_t from = text.find_first_not_of(" \n", offset); // a sign may stand behind blanks
    return candidate.source->path + "\t" + std::to_string(tidy::lineAt(text, from)) + "\t" + std::string(kind) + "\t"
        + lineOf(text, from) + "\t" + lineOf(mutated(text, candidate.mutation), from);
}

/// The lines of a table by what their mutants are.
std::map<std::string, std::string> readTable(const std::string& path)
{
    std::map<std::string, std::string> outcomes;
    std::ifstream file(path);
    for (std::string line; std::getline(file, line);) {
        const std::size_t by = line.rfind('\t');
        const std::size_t outcome = by == std::string::npos ? by : line.rfind('\t', by - 1);
        if (outcome != std::string::npos) {
            outcomes[line.substr(0, outcome)] = line.substr(outcome + 1, by - outcome - 1);
        }
    }
    return outcomes;
}

std::vector<Candidate> candidatesIn(const std::vector<Source>& sources)
{
    std::vector<Candidate> candidates;
    for (const Source& source : sources) {
        for (Mutation& mutation : mutationsOf(source.text)) {
            candidates.push_back({&source, std::move(mutation)});
        }
    }
    return candidates;
}

/// Tries candidates in a mixed order until enough of them compiled, and counts the outcomes.
std::map<std::string, std::size_t> tryAll(const Asked& asked, const Workshop& workshop,
                                          const std::vector<Candidate>& candidates)
{
    auto known = readTable(asked.table);
    std::ofstream table(asked.table, std::ios::app);
    std::map<std::string, std::size_t> counts;
    std::size_t compiled = 0;
    for (const std::size_t number : chosen(candidates.size(), candidates.size(), asked.seed)) {
        if (compiled == asked.count) {
            break;
        }
        const Candidate& candidate = candidates[number];
        const std::string what = told(candidate);
        auto [outcome, isNew] = known.try_emplace(what);
        if (isNew) {
            const Tried tried = workshop.tryOut(*candidate.source, mutated(candidate.source->text, candidate.mutation));
            outcome->second = nameOf(tried.outcome);
            table << what << "\t" << outcome->second << "\t" << tried.by << std::endl;
        }
        ++counts[outcome->second];
        compiled += outcome->second == nameOf(Outcome::NotCompiled) ? 0 : 1;
    }
    return counts;
}

int run(const Asked& asked, const std::string& scratch)
{
    const auto workshop = Workshop::open(std::filesystem::absolute(asked.build).string(), asked.programs, scratch,
                                         asked.limitS);
    if (!workshop) {
        std::cerr << workshop.error().sentence << "\n";
        return 2;
    }
    const auto sources = workshop->sourcesOf(asked.module);
    const auto candidates = candidatesIn(sources);
    if (sources.empty()) {
        std::cerr << asked.build << " compiles nothing of src/" << asked.module << "\n";
        return 2;
    }
    const Tried whole = workshop->tryOut(sources.front(), sources.front().text); // tests that fail anyway tell nothing
    if (whole.outcome != Outcome::Survived) {
        std::cerr << "without a fault: " << nameOf(whole.outcome) << " " << whole.by << "\n";
        return 2;
    }
    std::cout << asked.module << ": " << candidates.size() << " mutants of " << sources.size() << " files\n";
    for (const auto& [outcome, count] : tryAll(asked, *workshop, candidates)) {
        std::cout << outcome << ": " << count << "\n";
    }
    return 0;
}

} // namespace

int main(int count, char** words)
{
    Asked asked;
    CLI::App program("Says which small faults the tests of a module notice");
    program.add_option("build", asked.build, "build folder")->required();
    program.add_option("module", asked.module, "folder of src")->required();
    program.add_option("--tests", asked.programs, "test programs, in the order in which they are asked")->required();
    program.add_option("--count", asked.count, "mutants that compile");
    program.add_option("--seed", asked.seed, "which of them");
    program.add_option("--limit", asked.limitS, "seconds until a test program hangs");
    program.add_option("--table", asked.table, "file that gets a line for each");
    CLI11_PARSE(program, count, words);
    std::string scratch = (std::filesystem::temp_directory_path() / "loopside-mutants-XXXXXX").string();
    if (mkdtemp(scratch.data()) == nullptr) {
        std::cerr << "there is no folder to work in\n";
        return 2;
    }
    const int code = run(asked, scratch);
    std::filesystem::remove_all(scratch);
    return code;
}
