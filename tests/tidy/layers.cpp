// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/layers.h"

#include "tidy/source_text.h"

#include <sstream>

namespace loopside::tidy {

Result<Layers> Layers::parse(std::string_view text)
{
    Layers layers;
    for (const std::string& line : linesOf(text)) {
        const std::size_t colon = line.find(':');
        if (colon == std::string::npos || colon == 0) {
            return fail(Errc::Malformed, "\"" + line + "\" is not of the form \"module: what it depends on\"");
        }
        const std::string module = line.substr(0, colon);
        std::set<std::string> reach = {module};
        std::istringstream depends(line.substr(colon + 1));
        for (std::string other; depends >> other;) {
            const auto found = layers.reach_.find(other);
            if (found == layers.reach_.end()) {
                return fail(Errc::Conflict, module + " depends on " + other + ", which is not a lower module");
            }
            reach.insert(found->second.begin(), found->second.end());
        }
        layers.reach_[module] = std::move(reach);
    }
    return layers;
}

bool Layers::mayUse(const std::string& module, const std::string& other) const
{
    const auto found = reach_.find(module);
    return found != reach_.end() && found->second.contains(other);
}

} // namespace loopside::tidy
