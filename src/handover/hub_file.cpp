// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/hub_file.h"

#include "base/text.h"
#include "store/disk.h"
#include "store/durable_file.h"

#include <sstream>
#include <string_view>

namespace loopside::handover {

namespace {

constexpr std::size_t bytesMax = 10'000;
constexpr std::string_view title = "loopside hub 1";

/// The rest of the next line, which begins with `name` and a blank; empty where it does not.
std::string valueOf(std::istream& lines, std::string_view name)
{
    std::string line;
    std::getline(lines, line);
    const std::string begin = std::string(name) + ' ';
    return line.starts_with(begin) ? line.substr(begin.size()) : std::string();
}

std::optional<Hub> hubFrom(const std::string& text)
{
    std::istringstream lines(text);
    std::string first;
    std::getline(lines, first);
    Hub hub;
    const auto site = idFromText(valueOf(lines, "site"));
    const bool hasKey = fromHex(valueOf(lines, "key"), hub.site.hub);
    const bool hasCertificate = fromHex(valueOf(lines, "certificate"), hub.certificate);
    hub.address = valueOf(lines, "address");
    if (first != title || !site || !hasKey || !hasCertificate || hub.address.empty()) {
        return std::nullopt;
    }
    hub.site.id = *site;
    return hub;
}

} // namespace

Result<std::optional<Hub>> readHub(const std::string& path)
{
    const auto text = store::systemDisk().read(path, bytesMax);
    if (!text) {
        return text.error().code == Errc::NotFound ? Result<std::optional<Hub>>() : fail(text.error());
    }
    auto hub = hubFrom(*text);
    return hub ? Result<std::optional<Hub>>(std::move(hub))
               : fail(Errc::Malformed, path + " is not as it was written; it is left as it is, enrol the tablet anew");
}

Done writeHub(const std::string& path, const Hub& hub)
{
    return store::replacePrivateFile(path,
                                     std::string(title) + "\nsite " + toText(hub.site.id) + "\nkey "
                                         + toHex(hub.site.hub) + "\ncertificate " + toHex(hub.certificate)
                                         + "\naddress " + hub.address + '\n');
}

} // namespace loopside::handover
