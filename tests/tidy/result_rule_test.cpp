// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/result_rule.h"

#include <catch2/catch.hpp>

using namespace loopside::tidy;

TEST_CASE("a declaration that lets a Result be dropped is found")
{
    const auto declaration = GENERATE(
        as<std::string>(), "Result<int> count();", "loopside::Result<std::map<int, std::vector<int>>> all(int from);",
        "Done append(const Entry& entry);", "virtual Result<Position> append(const Entry& entry) = 0;",
        "static inline Done open(std::string path);",
        "template<class Q>\nResult<const NamedUnit<Q>*> unitNamed(std::string_view symbol);",
        "friend Result<Sum> operator+(Sum a, Sum b);", "inline Result<int> twice(int n)\n{\n    return 2 * n;\n}",
        "Result<std::function<int(int)>> chosen();", "auto later(int n) -> Result<int>;",
        "[[maybe_unused]] Done close();");
    CAPTURE(declaration);
    const Findings findings = checkResultsAreKept(
        {"src/store/x.h", "#pragma once\nnamespace loopside {\n" + declaration + "\n}\n"});
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].line == 3);
}

TEST_CASE("a Result that cannot be dropped, or is none, is let through")
{
    const auto declaration = GENERATE(
        as<std::string>(), "[[nodiscard]] Result<int> count();",
        "[[nodiscard]] static Result<Decimal> parse(std::string_view text);",
        "template<class Q>\n[[nodiscard]] Result<Q> read(std::string_view text);",
        "[[nodiscard]]\nvirtual Done append(const Entry& entry) = 0;", "using Done = Result<void>;",
        "template<class T>\nusing Result = tl::expected<T, Error>;", "Result<int> last = 3;",
        "std::function<Done(int)> onEnd;", "void tell(Result<int> answer);", "ResultView view();",
        "// Result<int> count();", "#define COUNT Result<int> count();",
        "inline int f()\n{\n    Done done(check());\n    Result<int> g(1);\n    return *g;\n}",
        "class DoneButton\n{\npublic:\n    DoneButton(int n);\n};");
    CAPTURE(declaration);
    CHECK(checkResultsAreKept({"src/store/x.h", "#pragma once\n" + declaration + "\n"}).empty());
}

TEST_CASE("a member of a class that lets a Result be dropped is found at its line")
{
    const Findings findings = checkResultsAreKept({"src/store/journal.h", R"(#pragma once

class Journal
{
public:
    virtual ~Journal() = default;
    int size() const { return size_; }
    Done flush();

private:
    int size_ = 0;
    Result<int> lookUp(int n) const;
};
)"});
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].line == 8);
    CHECK(findings[1].line == 12);
}

TEST_CASE("only headers are looked at for dropped results")
{
    CHECK(checkResultsAreKept({"src/store/journal.cpp", "Done Journal::flush()\n{\n    return {};\n}\n"}).empty());
}
