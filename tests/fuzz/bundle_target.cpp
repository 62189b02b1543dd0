// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Bundles: whatever is on the stick, it is read or told. What was read is written the same.

#include "fuzz/target.h"
#include "sync/bundle.h"

#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    std::istringstream in{std::string(fuzz::textOf(data, size))};
    std::vector<ledger::Entry> entries;
    std::vector<std::pair<std::string, std::string>> files;
    sync::BundleTaker take;
    take.entry = [&](const ledger::Entry& entry, std::uint64_t at) -> Done {
        fuzz::must(fuzz::textOf(data, size).substr(at).starts_with('{'), "an entry does not begin where it was told");
        entries.push_back(entry);
        return {};
    };
    take.attachment = [&](const std::string& hash, std::string_view file, std::uint64_t at) -> Done {
        fuzz::must(fuzz::textOf(data, size).substr(at, file.size()) == file, "a file is not where it was told");
        files.emplace_back(hash, file);
        return {};
    };
    const auto bundle = sync::readBundle(in, "bundle", take);
    if (!bundle) {
        fuzz::must(bundle.error().sentence.size() > 8, "a bundle is refused without a word");
        return 0;
    }
    std::ostringstream out;
    sync::BundleWriter writer(out, bundle->title);
    for (const ledger::Entry& entry : entries) {
        writer.add(entry);
    }
    for (const auto& [hash, file] : files) {
        writer.add(hash, file);
    }
    writer.end(ledger::DeviceKey::fromSeed({})); // whoever made it had another key
    std::istringstream again(out.str());
    const auto read = sync::readBundle(again, "bundle");
    fuzz::must(read || read.error().sentence.find("is not signed by the device") != std::string::npos,
               "a bundle does not come back");
    return 0;
}
