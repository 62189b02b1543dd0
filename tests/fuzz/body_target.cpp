// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Bodies of entries: the first line is the kind. What is read is written so that it is read the same.

#include "fuzz/target.h"
#include "ledger/body.h"
#include "ledger/chain.h"

using namespace loopside;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const std::string_view text = fuzz::textOf(data, size);
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) {
        return 0;
    }
    const std::string_view body = text.substr(end + 1);
    if (const auto event = ledger::eventFrom(text.substr(0, end), body)) {
        const auto again = ledger::eventFrom(ledger::kindOf(*event), ledger::bodyOf(*event));
        fuzz::must(again && *again == *event, "an event does not come back from its body");
    }
    if (const auto opening = ledger::chainOpeningFrom(body)) {
        fuzz::must(bodyOf(*opening) == body, "the opening of a chain has two forms");
    }
    return 0;
}
