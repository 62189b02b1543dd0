// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/vocabulary.h"

#include "run/finding.h"
#include "run/question.h"

#include <algorithm>

namespace loopside::story {

namespace {

template<class List>
bool holds(const List& list, std::string_view id)
{
    return std::find(list.begin(), list.end(), id) != list.end();
}

} // namespace

bool isFinding(std::string_view id)
{
    return run::isFinding(id);
}

bool isQuestion(std::string_view id)
{
    return holds(run::questionIds, id) || run::isFinding(id); // what was found may be confirmed
}

bool isAlert(std::string_view id)
{
    return run::alertNamed(id).has_value();
}

} // namespace loopside::story
