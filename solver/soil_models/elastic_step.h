#pragma once
// What all hypoelastic laws share: rotate the old stress, add the elastic part of the increment.

#include "solver/soil_model.h"
#include "solver/soil_models/principal_stress.h"

namespace interpile::solver {

/// Trial stress of one cell: the stress at the start turned with the material, plus linear elasticity in the
/// logarithmic strain. Compression positive [kPa].
inline PlaneStress elastic_trial(const Motion& motion, const SoilState& start, Eigen::Index cell,
                                 double lambda, double G) {
    const double c = motion(cell, RotationCos), s = motion(cell, RotationSin);
    const double xx = start.stress(cell, 0), yy = start.stress(cell, 1), xy = start.stress(cell, 3);
    const double cross = 2 * c * s * xy; // R S R^T
    const double volumetric =
        lambda * (motion(cell, StrainXX) + motion(cell, StrainYY) + motion(cell, StrainZZ));
    return {c * c * xx + s * s * yy - cross + volumetric + 2 * G * motion(cell, StrainXX),
            s * s * xx + c * c * yy + cross + volumetric + 2 * G * motion(cell, StrainYY),
            start.stress(cell, 2) + volumetric + 2 * G * motion(cell, StrainZZ),
            c * s * (xx - yy) + (c * c - s * s) * xy + 2 * G * motion(cell, StrainXY)};
}

/// Keep a stress and the density that follows from the strain: 1+e = (1+e_start) exp(-eps_v).
inline void store(SoilState& end, const SoilState& start, const Motion& motion, Eigen::Index cell,
                  const PlaneStress& t, bool yielding) {
    end.stress(cell, 0) = t.xx;
    end.stress(cell, 1) = t.yy;
    end.stress(cell, 2) = t.zz;
    end.stress(cell, 3) = t.xy;
    const double volumetric = motion(cell, StrainXX) + motion(cell, StrainYY) + motion(cell, StrainZZ);
    end.void_ratio(cell) = (1 + start.void_ratio(cell)) * std::exp(-volumetric) - 1;
    end.yielding(cell) = yielding;
}

} // namespace interpile::solver
