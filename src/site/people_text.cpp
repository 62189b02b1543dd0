// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/people_text.h"

#include "site/site.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>

namespace loopside::site {

namespace {

using Json = nlohmann::ordered_json;

/// Where something stands in a text.
struct Span
{
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// Goes through JSON that is known to be in order, from outside of a string, sign by sign.
class Walk
{
public:
    explicit Walk(const std::string& json) : json_{json} {}

    /// The value of the member `name` of the outermost object, if it is a list.
    [[nodiscard]] std::optional<Span> listNamed(const std::string& name)
    {
        const std::string quoted = '"' + name + '"';
        for (std::size_t i = 0; i < json_.size(); i = next(i)) {
            if (depth_ == 1 && json_.compare(i, quoted.size(), quoted) == 0) {
                const auto colon = json_.find_first_not_of(" \t\r\n", i + quoted.size());
                if (colon != std::string::npos && json_[colon] == ':') {
                    return listFrom(json_.find_first_not_of(" \t\r\n", colon + 1));
                }
            }
        }
        return std::nullopt;
    }

private:
    [[nodiscard]] std::optional<Span> listFrom(std::size_t begin)
    {
        if (begin == std::string::npos || json_[begin] != '[') {
            return std::nullopt;
        }
        const int outside = depth_;
        std::size_t end = next(begin);
        while (depth_ > outside && end < json_.size()) {
            end = next(end);
        }
        return Span{begin, end};
    }

    /// Behind the sign or the string at `at`.
    [[nodiscard]] std::size_t next(std::size_t at)
    {
        const char sign = json_[at];
        depth_ += sign == '{' || sign == '[' ? 1 : sign == '}' || sign == ']' ? -1 : 0;
        ++at;
        if (sign != '"') {
            return at;
        }
        while (at < json_.size() && json_[at] != '"') {
            at += json_[at] == '\\' ? 2 : 1;
        }
        return at + 1;
    }

    const std::string& json_;
    int depth_ = 0;
};

Json asJson(const PersonTold& person)
{
    Json json = {{"id", toText(person.id)}, {"name", person.name}};
    if (person.isOut) {
        json["out_of_service"] = true;
    }
    return json;
}

std::string listText(const Json& people)
{
    std::string text = "[";
    for (const Json& person : people) {
        text += (text.size() == 1 ? "\n    " : ",\n    ") + person.dump();
    }
    return text + "\n  ]";
}

} // namespace

Result<std::string> textWithPerson(const std::string& json, const PersonTold& person)
{
    if (const auto known = siteFrom(json); !known) {
        return fail(known.error());
    }
    const auto list = Walk(json).listNamed("people");
    if (!list) {
        return fail(Errc::Malformed, "people: the list of a site's people was not found");
    }
    Json people = Json::parse(json.substr(list->begin, list->end - list->begin));
    const auto known = std::find_if(people.begin(), people.end(),
                                    [&](const Json& one) { return one.value("id", "") == toText(person.id); });
    if (known == people.end()) {
        people.push_back(asJson(person));
    } else {
        *known = asJson(person);
    }
    std::string text = json;
    text.replace(list->begin, list->end - list->begin, listText(people));
    if (const auto after = siteFrom(text); !after) {
        return fail(after.error());
    }
    return text;
}

} // namespace loopside::site
