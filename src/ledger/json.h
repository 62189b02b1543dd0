// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Reading JSON that people wrote. Parsing itself is nlohmann-json's; what is added is what a record needs: numbers keep
// the digits they were written with, a key that stands twice or is unknown is a fault, and every fault names its place
// ("entries[3].gauges[1]").

#pragma once

#include "base/decimal.h"
#include "base/result.h"
#include "units/typed.h"

#include <concepts>
#include <cstddef>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace loopside::ledger {

/// A JSON value. Numbers are kept as text.
struct JsonValue
{
    enum class Kind
    {
        Null,
        Boolean,
        Number,
        Text,
        Array,
        Object
    };

    Kind kind = Kind::Null;
    bool boolean = false;
    std::string text = {};                                       ///< Of a text, or the digits of a number.
    std::vector<JsonValue> items = {};                           ///< Of an array.
    std::vector<std::pair<std::string, JsonValue>> members = {}; ///< Of an object, as written.
};

/// The most that a JSON text may hold; beyond it is Malformed.
struct JsonLimits
{
    std::size_t bytes = std::size_t{16} << 20U;
    std::size_t depth = 24;
};

/// Parses one JSON text in UTF-8. Malformed, with line and column in the sentence, otherwise.
[[nodiscard]] Result<JsonValue> parseJson(std::string_view text, const JsonLimits& limits = {});

/// `value` as JSON text without blanks, numbers with the digits they came with.
[[nodiscard]] std::string toJson(const JsonValue& value);

/// What a reader throws at the first fault. It never leaves `readJson`.
struct JsonFault
{
    Error error;
};

/// A view of a JSON value that knows where it stands and reads what it is asked for, or refuses.
class JsonReader
{
public:
    JsonReader(const JsonValue& value, std::string place) : value_{&value}, place_{std::move(place)} {}

    [[nodiscard]] const JsonValue& value() const { return *value_; }
    [[nodiscard]] const std::string& place() const { return place_; }
    [[nodiscard]] bool isNull() const { return value_->kind == JsonValue::Kind::Null; }
    [[nodiscard]] bool isText() const { return value_->kind == JsonValue::Kind::Text; }
    [[nodiscard]] bool isNumber() const { return value_->kind == JsonValue::Kind::Number; }
    [[nodiscard]] bool isObject() const { return value_->kind == JsonValue::Kind::Object; }
    [[nodiscard]] bool isArray() const { return value_->kind == JsonValue::Kind::Array; }

    [[nodiscard]] std::string text() const;
    [[nodiscard]] bool boolean() const;
    [[nodiscard]] Decimal decimal() const; ///< A number, or a text that is one (how the journal keeps typed digits).
    [[nodiscard]] int integer(int least, int most) const;
    [[nodiscard]] double real() const;

    template<class Q>
    [[nodiscard]] units::Typed<Q> quantity() const
    {
        return orRefuse(units::Typed<Q>::parse(text()));
    }

    template<class Q>
    [[nodiscard]] const units::NamedUnit<Q>* unit() const
    {
        return orRefuse(units::unitNamed<Q>(text()));
    }

    /// The value of a result, or its error as a fault at this place.
    template<class T>
    [[nodiscard]] T orRefuse(const Result<T>& result) const
    {
        if (!result) {
            refuse(result.error().sentence);
        }
        return *result;
    }

    /// Member `key`, if it is there and not null.
    [[nodiscard]] std::optional<JsonReader> find(std::string_view key) const;

    /// Member `key`; its absence is a fault.
    [[nodiscard]] JsonReader at(std::string_view key) const;

    /// What `read` makes of member `key`, if it is there and not null.
    template<class Read>
    [[nodiscard]] auto ifThere(std::string_view key, Read read) const
        -> std::optional<std::invoke_result_t<Read, JsonReader>>
    {
        const auto member = find(key);
        return member ? std::optional(read(*member)) : std::nullopt;
    }

    template<class Q>
    [[nodiscard]] std::optional<units::Typed<Q>> quantityIfThere(std::string_view key) const
    {
        return ifThere(key, [](const JsonReader& member) { return member.quantity<Q>(); });
    }

    [[nodiscard]] std::optional<Decimal> decimalIfThere(std::string_view key) const;
    [[nodiscard]] std::string textOr(std::string_view key, std::string otherwise = {}) const;

    /// The items of an array; anything else is a fault.
    [[nodiscard]] std::vector<JsonReader> items() const;

    /// Refuses anything but an object with these keys.
    void onlyKeys(std::initializer_list<std::string_view> keys) const;

    [[noreturn]] void refuse(const std::string& sentence) const;

private:
    const JsonValue* value_;
    std::string place_;
};

/// Runs `read` over the parsed `text` and returns what it made, or the first fault.
template<std::invocable<JsonReader> Read>
[[nodiscard]] auto readJson(std::string_view text, Read read, const JsonLimits& limits = {})
    -> Result<std::invoke_result_t<Read, JsonReader>>
{
    const auto value = parseJson(text, limits);
    if (!value) {
        return fail(value.error());
    }
    try {
        return read(JsonReader(*value, ""));
    } catch (const JsonFault& fault) {
        return fail(fault.error);
    }
}

} // namespace loopside::ledger
