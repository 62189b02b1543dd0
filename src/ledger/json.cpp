// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/json.h"

#include "base/text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <set>

namespace loopside::ledger {

namespace {

using Kind = JsonValue::Kind;

/// Builds a JsonValue from nlohmann's events. Stops by returning false.
class Builder final : public nlohmann::json_sax<nlohmann::json>
{
public:
    explicit Builder(std::size_t depthMax) : depthMax_{depthMax} {}

    bool null() override { return put({}); }
    bool boolean(bool value) override { return put({.kind = Kind::Boolean, .boolean = value}); }
    bool number_integer(number_integer_t value) override { return putNumber(std::to_string(value)); }
    bool number_unsigned(number_unsigned_t value) override { return putNumber(std::to_string(value)); }
    bool number_float(number_float_t, const string_t& digits) override { return putNumber(digits); }
    bool string(string_t& value) override { return put({.kind = Kind::Text, .text = std::move(value)}); }
    bool binary(binary_t&) override { return false; }

    bool start_object(std::size_t) override { return open(Kind::Object); }
    bool end_object() override { return close(); }
    bool start_array(std::size_t) override { return open(Kind::Array); }
    bool end_array() override { return close(); }

    bool key(string_t& name) override
    {
        if (!keys_.back().insert(name).second) {
            problem_ = placed("the key \"" + quotable(name) + "\" stands twice in one object");
            return false;
        }
        key_ = std::move(name);
        return true;
    }

    bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override
    {
        errorAt_ = position;
        return false;
    }

    JsonValue root = {};
    [[nodiscard]] const std::string& problem() const { return problem_; }
    [[nodiscard]] std::optional<std::size_t> errorAt() const { return errorAt_; }

private:
    bool putNumber(std::string digits) { return put({.kind = Kind::Number, .text = std::move(digits)}); }

    bool put(JsonValue value)
    {
        place(std::move(value));
        return true;
    }

    JsonValue* place(JsonValue value)
    {
        if (open_.empty()) {
            root = std::move(value);
            return &root;
        }
        JsonValue& parent = *open_.back();
        if (parent.kind == Kind::Array) {
            parent.items.push_back(std::move(value));
            return &parent.items.back();
        }
        parent.members.emplace_back(key_, std::move(value));
        return &parent.members.back().second;
    }

    bool open(Kind kind)
    {
        std::string at = placeOfNext();
        if (open_.size() >= depthMax_) {
            problem_ = "it is nested deeper than " + std::to_string(depthMax_) + " levels";
            return false;
        }
        open_.push_back(place({.kind = kind}));
        keys_.emplace_back();
        places_.push_back(std::move(at));
        return true;
    }

    bool close()
    {
        open_.pop_back();
        keys_.pop_back();
        places_.pop_back();
        return true;
    }

    /// Where the value that comes next stands, such as "entries[3].gauges".
    [[nodiscard]] std::string placeOfNext() const
    {
        if (open_.empty()) {
            return {};
        }
        const JsonValue& parent = *open_.back();
        if (parent.kind == Kind::Array) {
            return places_.back() + "[" + std::to_string(parent.items.size()) + "]";
        }
        return places_.back().empty() ? key_ : places_.back() + "." + key_;
    }

    [[nodiscard]] std::string placed(const std::string& sentence) const
    {
        return places_.empty() || places_.back().empty() ? sentence : places_.back() + ": " + sentence;
    }

    std::size_t depthMax_;
    std::vector<JsonValue*> open_; ///< The objects and arrays around; only the innermost grows, so these stay valid.
    std::vector<std::set<std::string>> keys_; ///< Of each of them so far.
    std::vector<std::string> places_;         ///< Of each of them.
    std::string key_;
    std::string problem_;
    std::optional<std::size_t> errorAt_;
};

std::string lineAndColumn(std::string_view text, std::size_t position)
{
    const std::string_view before = text.substr(0, std::min(position, text.size()));
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const auto lastBreak = before.rfind('\n');
    const std::size_t column = lastBreak == std::string_view::npos ? before.size() : before.size() - lastBreak - 1;
    return "line " + std::to_string(line) + ", column " + std::to_string(std::max<std::size_t>(column, 1));
}

/// No sign of more than one byte holds a line break, so each line can be looked at by itself.
std::size_t firstLineNotUtf8(std::string_view text)
{
    std::size_t line = 1;
    for (auto end = text.find('\n'); end != std::string_view::npos && isUtf8(text.substr(0, end));
         end = text.find('\n')) {
        text.remove_prefix(end + 1);
        ++line;
    }
    return line;
}

Error syntaxError(std::string_view text, const Builder& builder)
{
    if (!builder.problem().empty()) {
        return {Errc::Malformed, builder.problem(), {}};
    }
    const std::size_t at = builder.errorAt().value_or(text.size());
    const std::string what = at > text.size() ? "the text ends too early; it may be cut off" : "this is not JSON";
    return {Errc::Malformed, lineAndColumn(text, at) + ": " + what, {}};
}

std::string inQuotes(std::string_view text)
{
    return nlohmann::json(text).dump();
}

} // namespace

Result<JsonValue> parseJson(std::string_view text, const JsonLimits& limits)
{
    if (text.size() > limits.bytes) {
        return fail(Errc::Malformed, "it is larger than " + std::to_string(limits.bytes >> 20U) + " MB");
    }
    if (!isUtf8(text)) {
        return fail(Errc::Malformed, "line " + std::to_string(firstLineNotUtf8(text)) + ": this is not text in UTF-8");
    }
    Builder builder(limits.depth);
    if (!nlohmann::json::sax_parse(text, &builder)) {
        return fail(syntaxError(text, builder));
    }
    return std::move(builder.root);
}

std::string toJson(const JsonValue& value)
{
    switch (value.kind) {
    case Kind::Null:
        return "null";
    case Kind::Boolean:
        return value.boolean ? "true" : "false";
    case Kind::Number:
        return value.text;
    case Kind::Text:
        return inQuotes(value.text);
    case Kind::Array: {
        std::string out = "[";
        for (const JsonValue& item : value.items) {
            out += (out.size() > 1 ? "," : "") + toJson(item);
        }
        return out + "]";
    }
    case Kind::Object:
        break;
    }
    std::string out = "{";
    for (const auto& [key, member] : value.members) {
        out += (out.size() > 1 ? "," : "") + inQuotes(key) + ":" + toJson(member);
    }
    return out + "}";
}

void JsonReader::refuse(const std::string& sentence) const
{
    throw JsonFault{{Errc::Malformed, place_.empty() ? sentence : place_ + ": " + sentence, {}}};
}

std::string JsonReader::text() const
{
    if (!isText()) {
        refuse("a text in quotes is expected here");
    }
    return value_->text;
}

bool JsonReader::boolean() const
{
    if (value_->kind != Kind::Boolean) {
        refuse("true or false is expected here");
    }
    return value_->boolean;
}

Decimal JsonReader::decimal() const
{
    if (!isNumber() && !isText()) {
        refuse("a number is expected here");
    }
    return orRefuse(Decimal::parse(value_->text));
}

int JsonReader::integer(int least, int most) const
{
    int number = 0;
    const char* end = value_->text.data() + value_->text.size();
    const auto [rest, problem] = std::from_chars(value_->text.data(), end, number);
    if (!isNumber() || problem != std::errc{} || rest != end || number < least || number > most) {
        refuse("a whole number from " + std::to_string(least) + " to " + std::to_string(most) + " is expected here");
    }
    return number;
}

double JsonReader::real() const
{
    double number = 0.0;
    const char* end = value_->text.data() + value_->text.size();
    const auto [rest, problem] = std::from_chars(value_->text.data(), end, number);
    if (!isNumber() || problem != std::errc{} || rest != end || !std::isfinite(number)) {
        refuse("a number is expected here");
    }
    return number;
}

std::optional<JsonReader> JsonReader::find(std::string_view key) const
{
    if (!isObject()) {
        refuse("an object in { } is expected here");
    }
    const auto member = std::find_if(value_->members.begin(), value_->members.end(),
                                     [&](const auto& candidate) { return candidate.first == key; });
    if (member == value_->members.end() || member->second.kind == Kind::Null) {
        return std::nullopt;
    }
    return JsonReader(member->second, place_.empty() ? std::string(key) : place_ + "." + std::string(key));
}

JsonReader JsonReader::at(std::string_view key) const
{
    auto member = find(key);
    if (!member) {
        refuse("\"" + std::string(key) + "\" is missing");
    }
    return *std::move(member);
}

std::optional<Decimal> JsonReader::decimalIfThere(std::string_view key) const
{
    return ifThere(key, [](const JsonReader& member) { return member.decimal(); });
}

std::string JsonReader::textOr(std::string_view key, std::string otherwise) const
{
    const auto member = find(key);
    return member ? member->text() : std::move(otherwise);
}

std::vector<JsonReader> JsonReader::items() const
{
    if (!isArray()) {
        refuse("a list in [ ] is expected here");
    }
    std::vector<JsonReader> all;
    all.reserve(value_->items.size());
    for (std::size_t i = 0; i < value_->items.size(); ++i) {
        all.emplace_back(value_->items[i], place_ + "[" + std::to_string(i) + "]");
    }
    return all;
}

void JsonReader::onlyKeys(std::initializer_list<std::string_view> keys) const
{
    if (!isObject()) {
        refuse("an object in { } is expected here");
    }
    for (const auto& [key, member] : value_->members) {
        if (std::find(keys.begin(), keys.end(), key) != keys.end()) {
            continue;
        }
        std::string known;
        for (const std::string_view name : keys) {
            known += (known.empty() ? "" : ", ") + std::string(name);
        }
        refuse("\"" + quotable(key) + "\" is not a field here; known are " + known);
    }
}

} // namespace loopside::ledger
