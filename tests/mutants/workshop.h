// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <string>
#include <vector>

namespace loopside::mutants {

enum class Outcome
{
    Killed,
    Survived,
    NotCompiled,
    TimedOut
};

/// As it stands in the table: killed, survived, not compiled, timed out.
[[nodiscard]] std::string_view nameOf(Outcome outcome);

/// What became of a mutant; `by` is the test program that noticed it, empty if none did.
struct Tried
{
    Outcome outcome = Outcome::Survived;
    std::string by;
};

/// A file of the module, as it is in the tree.
struct Source
{
    std::string path; ///< From the project's folder, such as src/run/cart.cpp.
    std::string text;
};

/// Compiles one file by itself, links it before the libraries of test programs and runs these, all in a folder of its
/// own: neither the tree nor the build folder is written to.
class Workshop
{
public:
    /// On the build folder `build`, in which `programs` (such as test_run) were built; `scratch` is an empty folder.
    /// Tests are stopped after `limitS` seconds. NotFound if the build folder does not tell how one of them is linked.
    [[nodiscard]] static Result<Workshop> open(const std::string& build, const std::vector<std::string>& programs,
                                               const std::string& scratch, int limitS);

    /// The files that the build folder compiles of src/`module`, by their paths.
    [[nodiscard]] std::vector<Source> sourcesOf(const std::string& module) const;

    /// What the programs, one after the other until one fails, say to `text` in place of the file of `source`.
    [[nodiscard]] Tried tryOut(const Source& source, const std::string& text) const;

private:
    struct Program
    {
        std::string name;
        std::string link; ///< The line that links it into the scratch folder with the mutant.
    };
    struct Compiled
    {
        std::string path;
        std::string file; ///< Where it lies.
        std::string line; ///< How the build folder compiles it.
    };

    [[nodiscard]] bool compiles(const Source& source, const std::string& text) const;

    std::string build_;
    std::string scratch_;
    int limitS_ = 0;
    std::vector<Program> programs_;
    std::vector<Compiled> compiled_;
};

} // namespace loopside::mutants
