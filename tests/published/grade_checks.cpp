// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/grade.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

namespace loopside::published {

namespace {

using namespace units;

struct GradeValues
{
    std::vector<Value> mids;
    std::vector<Value> limits;
};

/// Of the grades whose number is from `first` to `last`.
GradeValues valuesOf(int first, int last)
{
    GradeValues values;
    for (const Row& row : rowsOf("iso3448.csv")) {
        const oil::Grade grade = valueOf(oil::gradeNamed(row.text("grade")));
        if (grade.vg >= first && grade.vg <= last) {
            values.mids.push_back({row.text("grade"), row.text("mid_cSt_40C"), grade.mid.in(centistokes)});
            values.limits.push_back({row.text("grade") + " least", row.text("min_cSt_40C"), grade.min.in(centistokes)});
            values.limits.push_back({row.text("grade") + " most", row.text("max_cSt_40C"), grade.max.in(centistokes)});
        }
    }
    return values;
}

} // namespace

void gradeChecks(Checks& checks)
{
    const GradeValues read = valuesOf(2, 1500);
    checks.check({"Mid-point of a viscosity grade, cSt at 40 °C", sources::gradeLeaflet, Tolerance::exact()},
                 read.mids);
    checks.check({"Limits of a viscosity grade, cSt at 40 °C", sources::gradeLeaflet, Tolerance::exact()}, read.limits);
    const GradeValues remembered = valuesOf(2200, 3200);
    checks.check({"Mid-point of VG 2200 and 3200, cSt at 40 °C", sources::fromMemory, Tolerance::exact()},
                 remembered.mids);
    checks.check({"Limits of VG 2200 and 3200, cSt at 40 °C", sources::fromMemory, Tolerance::exact()},
                 remembered.limits);

    checks.check({"Number of viscosity grades", sources::astmD2422, Tolerance::exact()},
                 {{"", "20", static_cast<double>(oil::grades().size())}});
    std::vector<Value> parts;
    for (const oil::Grade& grade : oil::grades()) {
        const std::string name = "ISO VG " + std::to_string(grade.vg);
        parts.push_back({name + " least", "-10", 100.0 * (grade.min / grade.mid - 1.0)});
        parts.push_back({name + " most", "10", 100.0 * (grade.max / grade.mid - 1.0)});
    }
    checks.check({"Limits of a viscosity grade, % of its mid-point", sources::astmD2422, Tolerance::exact()}, parts);
}

} // namespace loopside::published
