// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/people_text.h"

#include "site/site.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::site;

namespace {

const std::string head = R"({"name": "The \"people\": []",
  "carts": [{"cart": {"name": "C", "flow": "24 L/min", "gauges": {"unit": "kPa", "span": 700.0}}, "stages": [{}]}],
  "people" : )";
const std::string tail = R"(,
    "tanks":[{"name": "people", "volume": "760 L", "mixing": 0.70, "fluid": {"kind": "gear"}}]}
)";
const std::string two = R"([ {"id": "018f3b5e-0001-7000-8000-000000000001", "name": "In[e]s"},
  {"name": "Tomasz", "id": "018f3b5e-0002-7000-8000-000000000002"}])";

Id idOf(const char* text)
{
    return idFromText(text).value();
}

const Id ines = idOf("018f3b5e-0001-7000-8000-000000000001");
const Id tomasz = idOf("018f3b5e-0002-7000-8000-000000000002");
const Id nobody = idOf("018f3b5e-0003-7000-8000-000000000003");

Site siteWith(const PersonTold& person)
{
    const auto text = textWithPerson(head + two + tail, person);
    REQUIRE(text.has_value());
    CHECK(text->rfind(head, 0) == 0); // all that stands around is as somebody wrote it
    CHECK(text->substr(text->size() - tail.size()) == tail);
    return siteFrom(*text).value();
}

} // namespace

TEST_CASE("a new person stands behind the others, with a name of any signs")
{
    const Site site = siteWith({nobody, "Ana \"Ñ\" Öz\\", false});
    REQUIRE(site.people.size() == 3);
    CHECK(site.people[0].name == "In[e]s");
    CHECK(site.people[2].id == nobody);
    CHECK(site.people[2].name == "Ana \"Ñ\" Öz\\");
}

TEST_CASE("another name takes the place of the one before, which is nowhere any more")
{
    const auto text = textWithPerson(head + two + tail, {tomasz, "T. K.", false}).value();
    CHECK(text.find("Tomasz") == std::string::npos);
    CHECK(siteFrom(text).value().people[1].name == "T. K.");
    CHECK(siteFrom(text).value().people[1].id == tomasz);
}

TEST_CASE("who is out of service is kept with the name, and comes back")
{
    const auto text = textWithPerson(head + two + tail, {ines, "In[e]s", true}).value();
    const Site site = siteFrom(text).value();
    REQUIRE(site.people.size() == 1);
    REQUIRE(site.peopleOut.size() == 1);
    CHECK(site.peopleOut[0].name == "In[e]s");
    const Site back = siteFrom(textWithPerson(text, {ines, "In[e]s", false}).value()).value();
    CHECK(back.people.size() == 2);
    CHECK(back.peopleOut.empty());
}

TEST_CASE("the last one in service stays, and what is no site file is left alone")
{
    const auto one = textWithPerson(head + two + tail, {ines, "In[e]s", true}).value();
    CHECK(textWithPerson(one, {tomasz, "Tomasz", true}).error().code == Errc::Malformed);
    CHECK(textWithPerson("{\"people\": []}", {ines, "I", false}).error().code == Errc::Malformed);
    CHECK(textWithPerson("", {ines, "I", false}).error().code == Errc::Malformed);
}

TEST_CASE("wishes of somebody out of service are kept")
{
    Site site = siteWith({ines, "In[e]s", true});
    run::PersonPut put{{.id = ines}};
    put.person.theme = "night";
    site = withRecords(site, {{{}, run::RecordPut(put)}});
    CHECK(site.peopleOut[0].wants.theme == "night");
    CHECK(site.people[0].wants.theme.empty());
}
