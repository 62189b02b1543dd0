// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/key_file.h"

#include "base/text.h"
#include "store/durable_file.h"
#include "store/file_handle.h"

#include <fcntl.h>
#include <sys/stat.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <optional>
#include <span>
#include <string_view>
#include <system_error>
#include <utility>

namespace loopside::store {

namespace {

constexpr std::string_view title = "loopside device key 1\n";
constexpr std::size_t fileBytes = title.size() + 2 * std::tuple_size_v<ledger::Seed> + 1;

/// The key that `content` writes out, with `content` wiped; nothing if it is not a key file's.
std::optional<ledger::DeviceKey> keyFrom(std::span<char> content)
{
    const std::string_view text(content.data(), content.size());
    ledger::Seed seed = {};
    std::optional<ledger::DeviceKey> key;
    if (text.size() == fileBytes && text.starts_with(title) && text.ends_with('\n')
        && fromHex(text.substr(title.size(), 2 * seed.size()), seed)) {
        key = ledger::DeviceKey::fromSeed(seed);
    }
    ledger::wipe(seed);
    ledger::wipe(content);
    return key;
}

Result<ledger::DeviceKey> loadKey(const std::string& path)
{
    const auto unreadable = [&] {
        return fail(Errc::Io, "the key file " + path + " cannot be read: " + std::generic_category().message(errno));
    };
    const FileHandle file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    struct stat status = {};
    if (!file.isOpen() || ::fstat(file.number(), &status) != 0) {
        return unreadable();
    }
    if ((status.st_mode & (S_IRWXG | S_IRWXO)) != 0) {
        return fail(Errc::Conflict,
                    "the key file " + path + " is open to other users of this device: close it with chmod 600 " + path
                        + ", and if others do use this device, enrol it anew with a new key",
                    {"key-file-open-to-others", {{"path", path}}});
    }
    std::array<char, fileBytes + 1> content = {};
    const ssize_t size = ::read(file.number(), content.data(), content.size());
    if (size < 0) {
        return unreadable();
    }
    std::optional<ledger::DeviceKey> key = keyFrom(std::span(content).first(static_cast<std::size_t>(size)));
    if (!key) {
        return fail(Errc::Corrupt,
                    "the key file " + path
                        + " does not hold a key: it is left as it is; put back a copy of it, "
                          "or move it away to get a new key and enrol the device anew",
                    {"key-file-damaged", {{"path", path}}});
    }
    return std::move(*key);
}

Done createKey(const std::string& path)
{
    ledger::DeviceKey key = ledger::DeviceKey::generate();
    ledger::Seed seed = key.seed();
    std::string hex = toHex(seed);
    std::string content;
    content.reserve(fileBytes); // so that no half-filled copy of the secret stays behind
    content.append(title).append(hex).append(1, '\n');
    const std::string unfinished = path + ".new";
    ::unlink(unfinished.c_str()); // left by a start that was cut off
    Done written = writePrivateFile(unfinished, content);
    ledger::wipe(seed);
    ledger::wipe(std::span(hex));
    ledger::wipe(std::span(content));
    return written.and_then([&] { return putInPlace(unfinished, path); });
}

/// Under which the key in `path` is kept when it is replaced for the `number`th time.
std::string keptPath(const std::string& path, int number)
{
    return path + ".old." + std::to_string(number);
}

/// Whether a key that is kept beside the one in `path` signed in `journal`. One that cannot be read tells nothing.
Result<bool> hasKeptKeySigned(const ledger::Journal& journal, const std::string& path)
{
    Result<bool> there = isThere(keptPath(path, 1));
    for (int number = 1; there && *there; ++number) {
        const auto key = loadKey(keptPath(path, number));
        const auto head = key ? journal.head(deviceOf(*key)) : Result<std::optional<ledger::ChainHead>>();
        if (!head) {
            return fail(head.error());
        }
        if (head->has_value()) {
            return true;
        }
        there = isThere(keptPath(path, number + 1));
    }
    return there;
}

} // namespace

Result<ledger::DeviceKey> loadOrCreateKey(const std::string& path)
{
    const Result<bool> there = isThere(path);
    if (!there) {
        return fail(there.error());
    }
    if (!*there) {
        if (const Done created = createKey(path); !created) {
            return fail(created.error());
        }
    }
    return loadKey(path);
}

Id deviceOf(const ledger::DeviceKey& key)
{
    Id id;
    const auto publicKey = key.publicKey();
    std::copy_n(publicKey.begin(), id.bytes.size(), id.bytes.begin());
    return id;
}

Result<Message> replacedKeyNotice(const ledger::Journal& journal, const std::string& path, const Id& device)
{
    const auto head = journal.head(device);
    if (!head) {
        return fail(head.error());
    }
    if (head->has_value()) {
        return Message{};
    }
    return hasKeptKeySigned(journal, path).transform([](bool hasSigned) {
        return hasSigned ? Message{"key-replaced", {}} : Message{};
    });
}

Result<std::string> replaceKey(const std::string& path)
{
    if (const auto old = loadKey(path); !old) {
        return fail(old.error());
    }
    std::string kept;
    Result<bool> taken = true;
    for (int number = 1; taken && *taken; ++number) {
        kept = keptPath(path, number);
        taken = isThere(kept);
    }
    if (!taken) {
        return fail(taken.error());
    }
    // Under both names for a moment: a start that comes between finds the old key, never none.
    if (::link(path.c_str(), kept.c_str()) != 0) {
        return fail(Errc::Io,
                    "the old key could not be kept as " + kept + ": " + std::generic_category().message(errno));
    }
    const std::string fresh = path + ".fresh";
    ::unlink(fresh.c_str());
    if (const Done created = createKey(fresh); !created) {
        ::unlink(kept.c_str());
        return fail(created.error());
    }
    if (::rename(fresh.c_str(), path.c_str()) != 0) {
        const int cause = errno;
        ::unlink(kept.c_str());
        ::unlink(fresh.c_str());
        return fail(Errc::Io, "the new key could not be put in place: " + std::generic_category().message(cause));
    }
    return syncName(path).transform([&] { return kept; });
}

} // namespace loopside::store
