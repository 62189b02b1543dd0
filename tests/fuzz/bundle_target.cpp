// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Bundles: whatever is on the stick, it is read or told. What was read is written the same.

#include "fuzz/target.h"
#include "sync/bundle.h"

#include <map>
#include <sstream>

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    std::istringstream in{std::string(fuzz::textOf(data, size))};
    std::map<std::string, std::string> files;
    const auto bundle = sync::readBundle(in, "bundle", [&](const std::string& hash, std::string_view file) -> Done {
        files[hash] = file;
        return {};
    });
    if (!bundle) {
        fuzz::must(bundle.error().sentence.size() > 8, "a bundle is refused without a word");
        return 0;
    }
    std::ostringstream out;
    sync::BundleWriter writer(out, bundle->title);
    for (const ledger::Entry& entry : bundle->entries) {
        writer.add(entry);
    }
    for (const std::string& hash : bundle->attachments) {
        writer.add(hash, files.at(hash));
    }
    writer.end(ledger::DeviceKey::fromSeed({})); // whoever made it had another key
    std::istringstream again(out.str());
    const auto read = sync::readBundle(again, "bundle");
    fuzz::must(read || read.error().sentence.find("is not signed by the device") != std::string::npos,
               "a bundle does not come back");
    return 0;
}
