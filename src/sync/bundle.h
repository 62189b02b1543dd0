// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A bundle: what would go over the network as one signed file, for a stick or a shared folder (schema/README.md,
// section 3d). First a line that a person can read, then the entries, a line each as in an export, then the files of
// attachments, then a line with the signature over all of it.

#pragma once

#include "base/result.h"
#include "ledger/chain.h"
#include "ledger/digest.h"
#include "ledger/entry.h"

#include <cstdint>
#include <functional>
#include <istream>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace loopside::sync {

/// Most chains and gaps that a bundle names.
inline constexpr std::size_t bundleListedMost = 100'000;

/// What a bundle says of one chain.
struct BundledChain
{
    Id device = {};
    ledger::PublicKey key = {}; ///< By which the entries of the chain are signed.
    Id chain = {};
    std::uint64_t first = 0; ///< Sequences of the entries in the bundle; between them there may be gaps that are told.
    std::uint64_t last = 0;

    friend bool operator==(const BundledChain&, const BundledChain&) = default;
};

/// The manifest: the first line of a bundle.
struct BundleTitle
{
    std::string site;           ///< Its name; empty: not told.
    std::int64_t madeAtMs = 0;  ///< UTC, milliseconds since 1970.
    Id device = {};             ///< That made it.
    ledger::PublicKey key = {}; ///< Of that device; the bundle is signed by it.
    std::uint64_t entries = 0;
    std::uint64_t attachments = 0;
    std::vector<BundledChain> chains = {};
    std::vector<ledger::Loss> losses = {}; ///< Gaps that were there, and told of, when it was made.

    friend bool operator==(const BundleTitle&, const BundleTitle&) = default;
};

/// Writes one bundle: its title, then as many entries and attachments as that says, then the end.
class BundleWriter
{
public:
    /// `out` outlives it; whether all could be written, `out` tells in the end.
    BundleWriter(std::ostream& out, const BundleTitle& title);

    void add(const ledger::Entry& entry);

    /// The file of an attachment, salt and content, and its name.
    void add(const std::string& hash, std::string_view file);

    void end(const ledger::DeviceKey& key);

private:
    void write(std::string_view bytes);

    std::ostream* out_;
    ledger::Sha256 digest_;
};

/// Takes what is in a bundle as it comes: before the signature over the whole is seen, so what is to be kept for good
/// is taken on a second reading. `at` is the byte of the bundle at which a part begins. A null one takes nothing.
struct BundleTaker
{
    std::function<Done(const ledger::Entry& entry, std::uint64_t at)> entry = nullptr;
    /// The file of an attachment and its name, by which it was checked.
    std::function<Done(const std::string& hash, std::string_view file, std::uint64_t at)> attachment = nullptr;
};

/// A bundle that was read to its end. Nothing of its entries is held.
struct Bundle
{
    BundleTitle title;
    ledger::Hash digest = {}; ///< Over all before its last line.
};

/// Reads the bundle that stands in `in`, to its end, every hash and signature checked: of each entry by the key that
/// the title names for its chain, of the whole by the key of the device that made it.
///
/// Malformed for what is no bundle, or one that was cut short or garbled; Corrupt for one that was altered;
/// Incompatible for one of a newer version. Each sentence begins with `name`. Otherwise what `take` fails with.
[[nodiscard]] Result<Bundle> readBundle(std::istream& in, const std::string& name, const BundleTaker& take = {});

/// The entry of the bundle `in` that begins at `at`, where `readBundle` found it; checked by its hash alone. Malformed
/// if there is none any more.
[[nodiscard]] Result<ledger::Entry> bundledEntryAt(std::istream& in, std::uint64_t at);

/// What a bundle says of the chains of its entries, gathered from one entry after the other.
class ChainsGathered
{
public:
    void add(const ledger::Entry& entry);

    /// By the id of the chain. A chain whose opening did not come is left out: nobody could check what it says.
    [[nodiscard]] std::vector<BundledChain> chains() const;

    /// Whether `chain` is one of these.
    [[nodiscard]] bool has(const Id& chain) const;

    /// How many entries are of these, and how many of those that are left out.
    [[nodiscard]] std::uint64_t entries() const { return count(true); }
    [[nodiscard]] std::uint64_t leftOut() const { return count(false); }

private:
    struct Gathered
    {
        std::optional<BundledChain> opened = {};
        std::uint64_t last = 0;
        std::uint64_t entries = 0;
    };

    [[nodiscard]] std::uint64_t count(bool areOpened) const;

    std::map<Id, Gathered> chains_;
};

} // namespace loopside::sync
