#pragma once
// Curves of laboratory tests on a soil element: four panels on one page, several tests overlaid.

#include "postprocess/canvas.h"

namespace interpile::postprocess {

/// One instant of a test; NaN where a measurement does not give the value. Compression and shortening positive.
struct ElementPoint {
    double strain_pct = 0;      ///< axial, or shear strain gamma
    double stress_kPa = 0;      ///< q, or shear stress
    double path_stress_kPa = 0; ///< abscissa of the stress path: mean, or vertical effective stress
    double volumetric_strain_pct = 0;
    double mean_stress_kPa = 0;
    double void_ratio = 0;
};

struct ElementCurve {
    std::string name;
    std::vector<ElementPoint> computed;
    std::vector<ElementPoint> measured; ///< drawn as circles; may be empty
    std::string measured_label;         ///< where the circles come from, in the legend
};

struct ElementFigure {
    std::string title;
    std::string subtitle;
    std::string source; ///< program and file, at the foot
    bool shear =
        false; ///< gamma, shear stress and vertical stress instead of axial strain, q and mean stress
    bool constant_volume = false; ///< of every test: the third panel shows the mean stress, not the volume
    std::vector<ElementCurve> curves;
    std::vector<Vec2> critical_line; ///< mean stress [kPa], void ratio; empty where the soil has none
    std::vector<double>
        critical_stress_ratios; ///< q/p' of lines in the stress path, extension negative; axial only
};

/// Stress over strain, stress path, volume over strain (or mean stress at constant volume), void ratio over the
/// logarithm of the mean stress.
/// \throws std::invalid_argument if there is no curve
Drawing element_curves(const ElementFigure& figure);

} // namespace interpile::postprocess
