// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "store/temp_folder.h"

#include <sys/types.h>

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace loopside::test {

/// Variables of the environment: name and value.
using Variables = std::vector<std::pair<std::string, std::string>>;

/// What is in the file `path`; nothing where it is not there.
[[nodiscard]] std::string textIn(const std::string& path);

/// The part in brackets of the first place in `text` that fits the expression `pattern`; there must be one.
[[nodiscard]] std::string found(const std::string& text, const char* pattern);

/// The real loopside-hub with a folder of its own, started and killed as a test wants it. It listens at 127.0.0.1.
class HubProgram
{
public:
    explicit HubProgram(Variables more = {});
    HubProgram(const HubProgram&) = delete;
    HubProgram& operator=(const HubProgram&) = delete;
    ~HubProgram();

    /// What `loopside-hub VERB` says; it must succeed.
    [[nodiscard]] std::string run(const std::string& verb) const;

    /// A code with which a tablet can be enrolled.
    [[nodiscard]] std::string code() const { return found(run("enrol"), "\n    ([0-9A-Z-]{24})\n"); }

    /// Returns when it listens.
    void start();

    /// The status with which it ended.
    int end(int signal);

    /// From now on the hub that runs finds no room for a file longer than `bytes`; none: as much as there is.
    void roomForFiles(std::optional<std::uint64_t> bytes) const;

    [[nodiscard]] pid_t process() const;
    [[nodiscard]] std::string said() const { return textIn(folder_.file("serve.txt")); }
    [[nodiscard]] int port() const { return std::stoi(found(said(), "port ([0-9]+)")); }
    [[nodiscard]] std::string address() const { return "127.0.0.1:" + std::to_string(port()); }
    [[nodiscard]] std::string certificate() const { return folder_.file("hub/certificate.pem"); }
    /// Where it keeps key and certificate.
    [[nodiscard]] std::string folder() const { return folder_.file("hub"); }
    [[nodiscard]] std::string file() const { return folder_.file("hub/hub.sqlite"); }

private:
    TempFolder folder_;
    Variables variables_;
    pid_t process_ = -1;
};

} // namespace loopside::test
