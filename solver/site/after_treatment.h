#pragma once
// Blow counts measured between the piles against what was predicted, and what they say of the sand.

#include "solver/site/treatment.h"

namespace interpile::solver {

/// A blow count between the piles.
struct AfterMeasurement {
    std::string place;
    std::size_t boring = 0; ///< index of the design that tells the ground before
    double depth_m = 0;
    double blow_count = 0;           ///< N as measured, the hammer of that boring taken
    std::optional<double> fines_pct; ///< else that of the boring before
    double replacement_ratio = 0;    ///< a_s as built, 0 .. 1
    std::optional<double> simulated_blow_count;
    std::optional<double> days_after; ///< from the last pile nearby
};

/// One measurement compared.
struct AfterComparison {
    AfterMeasurement measured;
    std::size_t sample = 0; ///< of the boring before, whose interval holds the depth
    std::string left_out;   ///< why it is not compared; empty: it is
    double blow_count_before = 0;
    std::vector<DesignResult> predictions; ///< by method of the aims at a_s as built; outside may be said
    double relative_density_before_pct = 0, relative_density_after_pct = 0; ///< by Meyerhof's form of N
    /// eta = (e0 - e1)/(a_s (1 + e0)) of these densities [-]; NaN where a_s is 0 or N so high that it leaves no voids.
    double efficiency = 0;
    std::optional<SafetyFactor> safety; ///< by the procedure of the target, N measured and no K besides
    std::optional<bool> target_kept;    ///< none without a target
};

/// Measured over predicted for one way to predict.
struct PredictionScore {
    int count = 0;              ///< measurements with a prediction
    double mean_ratio = 0;      ///< of measured over predicted N: above 1 the prediction is safe
    double ratio_deviation = 0; ///< standard deviation of it; NaN below two
    double bias = 0;            ///< mean of measured less predicted N
    double scatter = 0;         ///< standard deviation of it; NaN below two
};

/// A number fitted to the measurements. Standard errors take them as independent, which blow counts of one boring are
/// not quite.
struct Fitted {
    int count = 0;
    double value = 0;
    double standard_error = 0; ///< NaN below two measurements, with a constant below three
};

enum class TrendVerdict {
    TooFew,     ///< below four measurements, or all at one density
    NotDecided, ///< two standard errors include no trend
    AsExpected, ///< denser ground gains less N at equal stress
    Contrary,   ///< denser ground gains more of it, as the void-ratio methods have it
};

struct AfterReview {
    std::vector<AfterComparison> comparisons; ///< by measurement
    std::vector<PredictionScore> methods;     ///< by method of the aims
    PredictionScore simulated;
    /// Of all with an efficiency: e0 - e1 = eta a_s (1 + e0), least squares through the origin.
    /// N measured holds the effect of the lateral stress too, so that eta is on the high side.
    Fitted efficiency;
    /// Change of the gain of D_r^2 per a_s with D_r before [1/1], least squares with a constant. D_r^2 stands for N at
    /// equal stress; of D_r itself even the void-ratio methods have dense ground gain a little less. Scatter of N before
    /// lowers it: a blow count low by chance seems to gain.
    Fitted density_trend;
    TrendVerdict verdict = TrendVerdict::TooFew;
};

/// \param designs  of the borings before treatment, by design_boring with the same aims
/// \throws std::invalid_argument  a boring that is not there; a number out of range
AfterReview review_after_treatment(const std::vector<AfterMeasurement>& measurements,
                                   const std::vector<BoringDesign>& designs, const Earthquake& quake,
                                   const TreatmentAims& aims);

/// "denser ground gained less" and the like.
const char* verdict_text(TrendVerdict verdict);

} // namespace interpile::solver
