// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Labels, read back by other programs (printed.h).

#include "paper/labels_pdf.h"

#include "printed.h"

#include <catch2/catch.hpp>

using Catch::Contains;
using namespace loopside;
using namespace loopside::paper;
using namespace loopside::test;

namespace {

const words::Words english = words::Words::in("en").value();

report::Label someLabel(const std::string& name)
{
    return {
        "Oil sample", name, {"From Press, unit 2", "ISO VG 46 hydraulic", "port 1 · 38 °C"}, "8X9X5N-" + name, false};
}

} // namespace

TEST_CASE("each label is a page of its own, with its words and a QR code of its own")
{
    const std::vector<report::Label> labels = {someLabel("A1"), someLabel("A2")};
    const Printed pages(labelsPdf(english, labels));
    CHECK_THAT(pages.about(), Contains("Pages:           2"));
    CHECK_THAT(pages.about(), Contains("227 x 142 pts")); // 80 mm by 50 mm, in whole points
    for (int page = 1; page <= 2; ++page) {
        const report::Label& label = labels[static_cast<std::size_t>(page) - 1];
        CHECK(pages.words(page, page)
              == "Oil sample " + label.name + " From Press, unit 2 ISO VG 46 hydraulic port 1 · 38 °C ");
        CHECK(qrIn(pages.page(page)) == label.code);
    }
}

TEST_CASE("the picture of a label carries its QR code")
{
    const std::string png = labelPng(english, someLabel("A1"));
    const QImage picture = QImage::fromData(QByteArray::fromStdString(png), "PNG");
    CHECK(picture.size() == QSize(945, 591)); // 80 mm by 50 mm at 300 dots an inch
    CHECK(qrIn(picture) == "8X9X5N-A1");
}

TEST_CASE("what is long is written smaller, and all of it")
{
    const std::string name = "PRESS-2-NORTH-HALL/2026-05-26/AFTER/SECOND-BOTTLE-OF-THE-KIT";
    report::Label label = someLabel(name);
    label.lines.insert(label.lines.end(), 8, "a line that tells at length where this bottle comes from, and by whom");
    const std::string words = Printed(labelsPdf(english, {label})).words();
    CHECK_THAT(words, Contains(name));
    std::size_t told = 0;
    for (std::size_t at = words.find("by whom"); at != std::string::npos; at = words.find("by whom", at + 1)) {
        ++told;
    }
    CHECK(told == 8);
}

TEST_CASE("a label of practice says so, and its code can still be read")
{
    report::Label label = someLabel("A1");
    CHECK_THAT(Printed(labelsPdf(english, {label})).words(), !Contains("PRACTICE"));
    label.isPractice = true;
    const Printed page(labelsPdf(english, {label}));
    CHECK_THAT(page.words(), Contains("PRACTICE"));
    CHECK(qrIn(page.page(1)) == "8X9X5N-A1");
}
