// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/settings.h"

#include "base/text.h"

#include <toml++/toml.h>

#include <array>
#include <charconv>

namespace loopside::hub {

namespace {

constexpr int portMost = 65'535;
constexpr std::array<std::string_view, 7> names = {"listen", "port",  "folder",   "database",
                                                   "site",   "names", "catalogue"};

tl::unexpected<Error> refuse(std::string_view name, const std::string& wanted)
{
    return fail(Errc::Malformed, "the setting " + std::string(name) + " must be " + wanted);
}

Done setPort(Settings& settings, const std::string& text)
{
    int port = -1;
    const char* end = text.data() + text.size();
    const auto [read, fault] = std::from_chars(text.data(), end, port);
    if (fault != std::errc() || read != end || port < 0 || port > portMost) {
        return refuse("port", "a number from 0 to 65535");
    }
    settings.port = port;
    return {};
}

Done setSite(Settings& settings, const std::string& text)
{
    const auto site = idFromText(text);
    if (!text.empty() && !site) {
        return refuse("site", "the id of a site");
    }
    settings.site = text.empty() ? Id{} : *site;
    return {};
}

Done setNames(Settings& settings, std::string_view text)
{
    settings.names.clear();
    while (!text.empty()) {
        const auto end = text.find(',');
        settings.names.emplace_back(trimmed(text.substr(0, end)));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return settings.names.empty() ? refuse("names", "at least one host name or address") : Done{};
}

Done set(Settings& settings, std::string_view name, const std::string& text)
{
    if (name == "port") {
        return setPort(settings, text);
    }
    if (name == "site") {
        return setSite(settings, text);
    }
    if (name == "names") {
        return setNames(settings, text);
    }
    if (name == "database" || name == "catalogue") {
        (name == "database" ? settings.database : settings.catalogue) = text;
        return {};
    }
    if (text.empty()) {
        return refuse(name, "a text that is not empty");
    }
    (name == "listen" ? settings.listen : settings.folder) = text;
    return {};
}

/// `node` as the text that stands for it in the environment.
Result<std::string> textOf(std::string_view name, const toml::node& node)
{
    if (const auto text = node.value_exact<std::string>(); text && name != "port" && name != "names") {
        return *text;
    }
    if (const auto number = node.value_exact<std::int64_t>(); number && name == "port") {
        return std::to_string(*number);
    }
    const toml::array* list = name == "names" ? node.as_array() : nullptr;
    if (list == nullptr) {
        return refuse(name, name == "port" ? "a number" : name == "names" ? "a list of texts" : "a text");
    }
    std::string all;
    for (const toml::node& item : *list) {
        const auto text = item.value_exact<std::string>();
        if (!text) {
            return refuse(name, "a list of texts");
        }
        all += (all.empty() ? "" : ",") + *text;
    }
    return all;
}

Done take(Settings& settings, const toml::table& table)
{
    for (const auto& [key, node] : table) {
        const std::string_view name = key.str();
        if (std::find(names.begin(), names.end(), name) == names.end()) {
            return fail(Errc::Malformed, "there is no setting \"" + quotable(name) + "\"");
        }
        const auto text = textOf(name, node);
        const Done done = text ? set(settings, name, *text) : fail(text.error());
        if (!done) {
            return done;
        }
    }
    return {};
}

std::string variableOf(std::string_view name)
{
    std::string variable = "LOOPSIDE_HUB_";
    for (const char sign : name) {
        variable += static_cast<char>(sign - 'a' + 'A');
    }
    return variable;
}

/// toml++ throws; this is the one place where it is caught.
Result<toml::table> parsed(std::string_view text)
{
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& fault) {
        return fail(Errc::Malformed,
                    "line " + std::to_string(fault.source().begin.line)
                        + " is no TOML: " + std::string(fault.description()));
    }
}

} // namespace

Result<Settings> settingsFrom(std::string_view toml, const std::string& path, const Environment& environment)
{
    Settings settings;
    const auto table = parsed(toml);
    const Done taken = table ? take(settings, *table) : fail(table.error());
    if (!taken) {
        return fail(taken.error().code, path + ": " + taken.error().sentence);
    }
    for (const std::string_view name : names) {
        const auto value = environment(variableOf(name));
        if (const Done done = value ? set(settings, name, *value) : Done{}; !done) {
            return fail(done.error().code, variableOf(name) + ": " + done.error().sentence);
        }
    }
    return settings;
}

} // namespace loopside::hub
