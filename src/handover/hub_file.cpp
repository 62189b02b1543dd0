// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/hub_file.h"

#include "ledger/json_parts.h"
#include "store/disk.h"
#include "store/durable_file.h"

#include <nlohmann/json.hpp>

namespace loopside::handover {

namespace {

constexpr std::size_t bytesMax = 10'000;

Hub hubOf(const ledger::JsonReader& file)
{
    file.onlyKeys({"loopside_hub", "address", "site", "key", "certificate"});
    if (ledger::wholeOf<int>(file.at("loopside_hub")) != 1) {
        file.at("loopside_hub").refuse("this version knows 1");
    }
    return {file.at("address").text(),
            {ledger::idOf(file.at("site")), ledger::hexOf<32>(file.at("key"))},
            ledger::hexOf<32>(file.at("certificate"))};
}

} // namespace

Result<std::optional<Hub>> readHub(const std::string& path)
{
    const auto text = store::systemDisk().read(path, bytesMax);
    if (!text) {
        return text.error().code == Errc::NotFound ? Result<std::optional<Hub>>() : fail(text.error());
    }
    const auto hub = ledger::readJson(*text, hubOf);
    return hub ? Result<std::optional<Hub>>(*hub)
               : fail(Errc::Malformed,
                      path + " does not say at which hub this tablet is enrolled: " + hub.error().sentence
                          + "; it is left as it is, enrol the tablet anew");
}

Done writeHub(const std::string& path, const Hub& hub)
{
    const nlohmann::ordered_json json = {{"loopside_hub", 1},
                                         {"address", hub.address},
                                         {"site", toText(hub.site.id)},
                                         {"key", toHex(hub.site.hub)},
                                         {"certificate", toHex(hub.certificate)}};
    return store::replacePrivateFile(path, json.dump() + '\n');
}

} // namespace loopside::handover
