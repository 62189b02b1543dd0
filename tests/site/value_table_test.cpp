// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/value_table.h"

#include "site/csv.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::site;

namespace {

using Fields = std::vector<std::string>;

ValueTable tableOf(const std::string& text)
{
    const auto table = readTable("t.csv", text);
    CAPTURE(text);
    REQUIRE(table.has_value());
    return *table;
}

std::string refusalOf(const std::string& text)
{
    const auto table = readTable("t.csv", text);
    return table ? std::string() : table.error().say.id;
}

} // namespace

TEST_CASE("commas, semicolons and tabs are told apart by the header")
{
    const auto [text, separator] = GENERATE(table<const char*, char>({{"name,volume_l\nA,1\n", ','},
                                                                      {"name;volume_l\nA;1\n", ';'},
                                                                      {"name\tvolume_l\nA\t1\n", '\t'},
                                                                      {"\"name, of it\";volume_l;x\nA;1;2\n", ';'},
                                                                      {"name\nA\n", ','}}));
    CAPTURE(text);
    CHECK(tableOf(text).separator == separator);
}

TEST_CASE("a table reads the same with any line ends, with a byte order mark and without the last line end")
{
    const auto text = GENERATE(as<std::string>{}, "name,volume_l\nA,1\nB,2\n", "name,volume_l\r\nA,1\r\nB,2\r\n",
                               "\xEF\xBB\xBFname,volume_l\nA,1\nB,2", "name,volume_l\r\nA,1\r\nB,2",
                               "\n Name , Volume_L ,,\n\nA, 1 \n,\nB,2,,\n\n",
                               "# made up, today\nname,volume_l\nA,1\nB,2\n");
    CAPTURE(text);
    const ValueTable table = tableOf(text);
    CHECK(table.columns == Fields{"name", "volume_l"});
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].fields == Fields{"A", "1"});
    CHECK(table.rows[1].fields == Fields{"B", "2"});
    CHECK(table.faults.empty());
}

TEST_CASE("rows know their line in the file, empty lines counted")
{
    const ValueTable table = tableOf("name\n\nA\n\n\nB\n");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].line == 3);
    CHECK(table.rows[1].line == 6);
}

TEST_CASE("quotation marks hold separators, and two of them are one")
{
    const ValueTable table = tableOf("name,volume_l\n\"Tank, \"\"old\"\"\",\"1,5\"\n\"\",2\n");
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[0].fields == Fields{"Tank, \"old\"", "1,5"});
    CHECK(table.rows[1].fields == Fields{"", "2"});
}

TEST_CASE("a line that cannot be cut costs itself, not the others")
{
    const ValueTable table = tableOf("name,volume_l\nA,1\n\"B,2\nC,3,4\nD\nE,5\n");
    CHECK(table.rows.size() == 2);
    REQUIRE(table.faults.size() == 3);
    CHECK(table.faults[0].line == 3);
    CHECK(table.faults[0].what.id == "file.fault.quote");
    CHECK(table.faults[1].line == 4);
    CHECK(table.faults[1].what == Message{"file.fault.fields", {{"fields", "3"}, {"columns", "2"}}});
    CHECK(table.faults[2].line == 5);
}

TEST_CASE("a file that is no table is refused in a sentence of its own")
{
    CHECK(refusalOf("") == "file.empty");
    CHECK(refusalOf(" \r\n\n \n") == "file.empty");
    CHECK(refusalOf("name,volume_l\n") == "file.no-rows");
    CHECK(refusalOf("name,,volume_l\nA,1,2\n") == "file.column-unnamed");
    CHECK(refusalOf("name,Volume_l,volume_L\nA,1,2\n") == "file.column-twice");
    CHECK(refusalOf("\"name,volume_l\nA,1\n") == "file.header-quote");
    CHECK(refusalOf(std::string("name\nA\0B\n", 9)) == "file.no-text");
    CHECK(refusalOf("name\n\xFF\xFE\n") == "file.no-text");
    CHECK(refusalOf("name\nK\xFChlung\n") == "file.no-text"); // one byte a sign, as old spreadsheets write
    CHECK(refusalOf("\x89PNG\r\n\x1A\n") == "file.no-text");
}

TEST_CASE("a table that is too long is refused")
{
    std::string rows = "name\n";
    for (std::size_t i = 0; i < tableRowsMax; ++i) {
        rows += "A\n";
    }
    CHECK(refusalOf(rows).empty());
    CHECK(refusalOf(rows + "A\n") == "file.rows");
    CHECK(refusalOf("name\n" + std::string(tableBytesMax, 'A') + "\n") == "file.too-long");
    std::string columns = "c0";
    for (std::size_t i = 1; i <= tableColumnsMax; ++i) {
        columns += ",c" + std::to_string(i);
    }
    CHECK(refusalOf(columns + "\nA\n") == "file.columns");
}

TEST_CASE("a decimal comma that makes a field of its own is told, however many empty fields follow")
{
    const ValueTable table = tableOf("name,volume_l,plate\nT-1,760,5,\nT-2,760,\n");
    REQUIRE(table.faults.size() == 1); // 760,5 without a plate must not become 760 with the plate 5
    CHECK(table.faults.front().what.id == "file.fault.fields");
    REQUIRE(table.rows.size() == 1);
    CHECK(table.rows.front().fields == Fields{"T-2", "760", ""});
}

TEST_CASE("empty fields behind the last column are passed over where the header has them too")
{
    const ValueTable table = tableOf("name,volume_l,,\nA,1,,\nB,2\nC,3,,,\n");
    CHECK(table.columns == Fields{"name", "volume_l"});
    CHECK(table.rows.size() == 2);
    CHECK(table.faults.size() == 1);
}

TEST_CASE("lines come as the library's own reader gives them")
{
    std::string text = GENERATE(as<std::string>(), "a\n", "\n", "\r\n", "a\r\nb\n", "a\rb\n\n\r\r\nc\n",
                                " \n\t\n,\n\"\n");
    CAPTURE(text);
    io::LineReader reader("t.csv", text.data(), text.data() + text.size());
    std::string copy = text;
    Lines lines(copy);
    for (const char* line = reader.next_line(); line != nullptr; line = reader.next_line()) {
        const char* const own = lines.next();
        REQUIRE(own != nullptr);
        CHECK(std::string(own) == line);
        CHECK(lines.number() == reader.get_file_line());
    }
    CHECK(lines.next() == nullptr);
}
