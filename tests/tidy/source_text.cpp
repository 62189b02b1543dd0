// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/source_text.h"

#include <algorithm>
#include <cctype>

namespace loopside::tidy {

namespace {

/// Walks over code once and blanks what is not code.
class Blanker
{
public:
    Blanker(std::string_view text, bool blankStrings) : text_{text}, blankStrings_{blankStrings} {}

    std::string run()
    {
        while (at_ < text_.size()) {
            step();
        }
        return std::move(text_);
    }

private:
    void step()
    {
        if (text_.compare(at_, 2, "//") == 0) {
            skipTo(text_.find('\n', at_), true);
        } else if (text_.compare(at_, 2, "/*") == 0) {
            skipTo(behind("*/", at_ + 2), true);
        } else if (text_.compare(at_, 2, "R\"") == 0 && !follows('_')) {
            const std::size_t open = text_.find('(', at_);
            const std::string close = ")" + text_.substr(at_ + 2, open - at_ - 2) + "\"";
            skipTo(behind(close, at_ + 2), blankStrings_);
        } else if (text_[at_] == '"' || text_[at_] == '`' || (text_[at_] == '\'' && !follows('0'))) {
            skipTo(endOfString(), blankStrings_);
        } else {
            ++at_;
        }
    }

    /// Whether the sign here follows a letter or digit, as a digit separator does; `extra` counts as one too.
    [[nodiscard]] bool follows(char extra) const
    {
        return at_ > 0 && (std::isalnum(static_cast<unsigned char>(text_[at_ - 1])) != 0 || text_[at_ - 1] == extra);
    }

    [[nodiscard]] std::size_t behind(const std::string& mark, std::size_t from) const
    {
        const std::size_t found = text_.find(mark, from);
        return found == std::string::npos ? found : found + mark.size();
    }

    [[nodiscard]] std::size_t endOfString() const
    {
        const char quote = text_[at_];
        for (std::size_t i = at_ + 1; i < text_.size(); ++i) {
            if (text_[i] == '\\') {
                ++i;
            } else if (text_[i] == quote || (text_[i] == '\n' && quote != '`')) {
                return i + 1;
            }
        }
        return text_.size();
    }

    void skipTo(std::size_t end, bool blank)
    {
        end = std::min(end, text_.size());
        for (; at_ < end; ++at_) {
            if (blank && text_[at_] != '\n') {
                text_[at_] = ' ';
            }
        }
    }

    std::string text_;
    bool blankStrings_;
    std::size_t at_ = 0;
};

} // namespace

std::string withoutComments(std::string_view text)
{
    return Blanker(text, false).run();
}

std::string withoutCommentsAndStrings(std::string_view text)
{
    return Blanker(text, true).run();
}

std::vector<std::string> linesOf(std::string_view text)
{
    std::vector<std::string> lines;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

std::size_t lineAt(std::string_view text, std::size_t offset)
{
    return 1 + static_cast<std::size_t>(std::ranges::count(text.substr(0, offset), '\n'));
}

bool isIn(const SourceFile& file, std::string_view folder)
{
    return file.path.size() > folder.size() && file.path.starts_with(folder) && file.path[folder.size()] == '/';
}

bool endsIn(const SourceFile& file, const std::vector<std::string_view>& endings)
{
    return std::ranges::any_of(endings, [&](std::string_view ending) { return file.path.ends_with(ending); });
}

std::string_view fileName(std::string_view path)
{
    return path.substr(path.rfind('/') + 1);
}

} // namespace loopside::tidy
