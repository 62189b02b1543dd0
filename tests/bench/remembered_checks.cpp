// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Stands in the place of libsodium's check of a signature, in programs that check the same few hundred of them a million
// times: asks libsodium once for each key, message and signature, and remembers what it said. It gives the same answers.

#include <dlfcn.h>

#include <cstdlib>
#include <string>
#include <unordered_map>

extern "C" int crypto_sign_verify_detached(const unsigned char* signature, const unsigned char* message,
                                           unsigned long long length, const unsigned char* key)
{
    using Check = int (*)(const unsigned char*, const unsigned char*, unsigned long long, const unsigned char*);
    static const auto check = reinterpret_cast<Check>(dlsym(RTLD_NEXT, "crypto_sign_verify_detached"));
    static std::unordered_map<std::string, int> known;
    if (check == nullptr) {
        std::abort();
    }
    std::string asked(reinterpret_cast<const char*>(signature), 64);
    asked.append(reinterpret_cast<const char*>(key), 32).append(reinterpret_cast<const char*>(message), length);
    const auto found = known.find(asked);
    return found != known.end()
        ? found->second
        : known.emplace(std::move(asked), check(signature, message, length, key)).first->second;
}
