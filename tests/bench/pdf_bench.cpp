// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the record of a run of some readings costs as a PDF, beside a page with one line of text by the same writer.
// `bench_pdf [READINGS [ROUNDS]]`; none: 200 and 5.

#include "bench/long_journal.h"
#include "bench/measure.h"
#include "ledger/memory_journal.h"
#include "paper/face.h"
#include "paper/gui.h"
#include "paper/record_pdf.h"
#include "report/evidence.h"

#include <QBuffer>
#include <QGuiApplication>
#include <QPainter>
#include <QPdfWriter>

using namespace loopside;
using namespace loopside::bench;

namespace {

report::RecordFile recordOfRun(int readings)
{
    ledger::MemoryJournal journal;
    Filler(journal).fillTo(static_cast<std::size_t>(readings) + 3, 1);
    Id run;
    const ledger::EntryReader read = [&](const auto& take) { return ledger::readAll(journal, take); };
    must(read([&](const ledger::Stored& stored) -> Done {
             run = run.isNone() ? stored.entry.header.run : run;
             return {};
         }).has_value(),
         "the journal cannot be read");
    const auto evidence = report::evidenceOf(read, run);
    must(evidence.has_value(), "there is no evidence");
    auto file = report::recordFileOf("0.1.0", *evidence, {});
    must(file.has_value(), "there is no record");
    return *std::move(file);
}

std::size_t barePage()
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        QPainter painter(&writer);
        painter.drawText(QPointF(200, 200), QStringLiteral("Record of a cleaning run"));
    }
    return static_cast<std::size_t>(bytes.size());
}

template<class Work>
double medianMs(int rounds, Work work)
{
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        times.push_back(processorSecondsOf(work) * 1e3);
    }
    return medianOf(std::move(times));
}

} // namespace

int main(int argc, char** argv)
{
    const int readings = argc > 1 ? std::clamp(std::atoi(argv[1]), 2, readingsInRun) : readingsInRun;
    const int rounds = argc > 2 ? std::max(std::atoi(argv[2]), 1) : 5;
    paper::settleFace();
    const QGuiApplication program(argc, argv);
    const report::RecordFile file = recordOfRun(readings);
    std::size_t bytes = 0;
    const double record = medianMs(rounds, [&] {
        const auto pdf = paper::recordPdf(file, paper::PaperSize::A4);
        must(pdf.has_value() && pdf->starts_with("%PDF"), "there is no PDF");
        bytes = pdf->size();
    });
    must(barePage() > 500, "the bare page is empty"); // the first pays for what all need
    const double bare = medianMs(5 * rounds, [] { must(barePage() > 500, "the bare page is empty"); });
    std::printf("record of %d readings, %zu bytes %9.1f ms\nbare page %9.2f ms\nratio %9.1f\n", readings, bytes, record,
                bare, record / bare);
    return 0;
}
