// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "report/csv.h"

#include "report/told_story.h"

#include <algorithm>
#include <optional>
#include <vector>

using namespace loopside;
using namespace loopside::report;
using namespace loopside::test;

namespace {

using Records = std::vector<std::vector<std::string>>;

/// Reads CSV by the grammar of RFC 4180, section 2, and nothing else: every record ends with CR LF and has as many
/// fields as the first; a quotation mark stands only around a field, or doubled within one.
class StrictCsv
{
public:
    explicit StrictCsv(std::string text) : text_{std::move(text)} {}

    /// Nothing where the text is no such CSV.
    std::optional<Records> read()
    {
        Records records;
        while (at_ < text_.size()) {
            records.emplace_back();
            do {
                const auto field = takes('"') ? quoted() : plain();
                if (!field) {
                    return std::nullopt;
                }
                records.back().push_back(*field);
            } while (takes(','));
            if (!takes('\r') || !takes('\n') || records.back().size() != records.front().size()) {
                return std::nullopt;
            }
        }
        return records;
    }

private:
    bool takes(char sign)
    {
        const bool is = at_ < text_.size() && text_[at_] == sign;
        at_ += is ? 1 : 0;
        return is;
    }

    std::optional<std::string> plain()
    {
        const std::size_t end = text_.find_first_of(",\r\n\"", at_);
        if (end == std::string::npos || text_[end] == '"') {
            return std::nullopt;
        }
        const std::string field = text_.substr(at_, end - at_);
        at_ = end;
        return field;
    }

    std::optional<std::string> quoted()
    {
        std::string field;
        while (at_ < text_.size()) {
            if (!takes('"')) {
                field += text_[at_++];
            } else if (takes('"')) {
                field += '"';
            } else {
                return field;
            }
        }
        return std::nullopt;
    }

    std::string text_;
    std::size_t at_ = 0;
};

} // namespace

TEST_CASE("the strict reader refuses what RFC 4180 does not allow")
{
    CHECK(StrictCsv("a,b\r\n1,\"x\"\"y\"\r\n").read() == Records{{"a", "b"}, {"1", "x\"y"}});
    CHECK_FALSE(StrictCsv("a,b\n").read());
    CHECK_FALSE(StrictCsv("a,b\r\n1\r\n").read());
    CHECK_FALSE(StrictCsv("a\"b\r\n").read());
    CHECK_FALSE(StrictCsv("\"a\r\n").read());
    CHECK_FALSE(StrictCsv("a,b").read());
}

TEST_CASE("the CSV of a record is RFC 4180 and holds every cell as it is")
{
    const RunRecord record = fileOfStory(awkwardRun).record;
    const auto records = StrictCsv(csvOf(record)).read();
    REQUIRE(records);
    CHECK(records->front() == std::vector<std::string>{"part", "row", "column", "value"});
    for (const Table& table : record.tables) {
        for (const Row& row : table.rows) {
            for (std::size_t i = 0; i < row.cells.size(); ++i) {
                const std::vector<std::string> line = {table.id, row.id, table.columns[i].id, asCsvText(row.cells[i])};
                CAPTURE(line);
                CHECK(std::ranges::find(*records, line) != records->end());
            }
        }
    }
    CHECK(records->back() == std::vector<std::string>{"proof", "digest", "value", record.digest});
}

TEST_CASE("what a spreadsheet would take for a formula is text")
{
    CHECK(asCsvText("=SUM(1)") == "'=SUM(1)");
    CHECK(asCsvText("38 psi") == "38 psi");
    CHECK(csvLine({"a,b", "say \"so\"", "two\r\nlines"}) == "\"a,b\",\"say \"\"so\"\"\",\"two\r\nlines\"\r\n");
}
