// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// From a series of readings to what the forecast takes.
//
// Load: seconds at a reference flow, ∫ flow dt ÷ reference; plain seconds where no flow is told. Which reference is
// taken changes no forecast. The drop stays as it was read: the limit is one of raw drop, and as dirt makes the flow
// sag, that belongs to the shape. Validity: the pump's setting stays; a flow that a person changes moves the drop and
// is taken for dirt, or the lack of it.
// Measured on open liquid data whose flow sags by up to a quarter (24 runs, each from the others, a reading each 10 s;
// error ÷ time left at 70 % and 95 % of the life): raw drop over load 0.21 and 0.05, the 80 % range holding the truth
// in 23 of 24 and 24 of 24; drop × reference ÷ flow over load 0.20 and 0.33, holding it in 22 and 10; time alone 0.15
// and 0.10, holding it in 23 and 22.

#pragma once

#include "cli/series_file.h"
#include "forecast/loading.h"

#include <optional>
#include <vector>

namespace loopside::cli {

/// The way from the time and flow of readings to the load.
class FlowAxis
{
public:
    /// `reference` in the unit of the flows, above 0; nothing: the flow is steady.
    explicit FlowAxis(std::optional<double> reference) : reference_{reference} {}

    void add(const SeriesReading& reading);

    [[nodiscard]] double load() const { return load_; }

    /// Whether the last reading's flow is a fifth of the reference or more; less, and the drop says nothing of dirt.
    [[nodiscard]] bool isFlowing() const;

    /// The median share of the last five flowing readings; 1 before any: a flow reading scatters, the pump does not.
    [[nodiscard]] double usualShare() const;

private:
    std::optional<double> reference_;
    double seconds_ = 0.0;
    double load_ = 0.0;
    double share_ = 1.0;
    bool isFirst_ = true;
    std::vector<double> lastShares_;
};

/// The median of the flows above 0 in `file`; nothing without any.
[[nodiscard]] std::optional<double> usualFlow(const SeriesFile& file);

/// `run` of a history as a past loading, its drops and limit in `unit`.
[[nodiscard]] forecast::PastLoading pastLoadingOf(const SeriesRun& run, units::Pressure::Unit unit,
                                                  std::optional<double> referenceFlow, forecast::Kinship kinship);

/// A loading that goes on: its readings so far, at most 256 of them. Beyond, neighbours become their mean, the oldest
/// first, so that a long series costs no more a reading than a short one.
class GrowingLoading
{
public:
    /// `errorLeast`: the reading error (k = 2) that a gauge's graduation makes; above 0.
    GrowingLoading(units::Pressure::Unit unit, std::optional<double> referenceFlow, units::Pressure errorLeast)
        : unit_{unit}, axis_(referenceFlow), errorLeast_{errorLeast}
    {
    }

    /// Takes a reading; one without flow counts for nothing but its time.
    void add(const SeriesReading& reading);

    [[nodiscard]] const FlowAxis& axis() const { return axis_; }

    /// What is held, with one reading error: the least, or twice the scatter of the last readings about the lines
    /// between their neighbours where that is more.
    [[nodiscard]] std::vector<forecast::Reading> readings() const;

private:
    struct Held
    {
        double load;
        units::Pressure drop;
        double count; ///< How many readings it is the mean of.
    };

    void noteScatter(const Held& latest);
    void thin();

    units::Pressure::Unit unit_;
    FlowAxis axis_;
    units::Pressure errorLeast_;
    std::vector<Held> held_;
    std::vector<Held> lastTwo_;
    std::vector<double> residualsPa_; ///< Of the last readings, each scaled to the scatter of one.
};

} // namespace loopside::cli
