#pragma once
// Laboratory tests of a soil element: kind of apparatus, course of loading, what is recorded.

#include "solver/soil_model.h"

#include <limits>
#include <vector>

namespace interpile::solver {

/// Triaxial            axial strain driven, both lateral stresses alike
/// TriaxialConstantP   the same with the mean stress held
/// Biaxial             plane strain, axial strain driven, one lateral stress held
/// SimpleShear         shear strain driven, no lateral strain, vertical stress held
/// TorsionalShear      shear strain driven, all normal stresses held
/// Oedometer           axial strain driven, no lateral strain
enum class Apparatus { Triaxial, TriaxialConstantP, Biaxial, SimpleShear, TorsionalShear, Oedometer };

/// Whether shear strain and shear stress are driven, else axial ones.
bool is_shear(Apparatus apparatus);
/// Whether the test can be made at constant volume.
bool can_be_undrained(Apparatus apparatus);

/// Part of the loading: drive the strain one way until a value is met exactly.
struct LoadingLeg {
    /// Strain: axial, shortening positive, or shear strain gamma [-].
    /// Stress [kPa]: q of a triaxial or biaxial test, shear stress, vertical stress in the oedometer.
    enum Until { Strain, Stress } until = Strain;
    double target = 0;
};

struct LaboratoryTest {
    Apparatus apparatus = Apparatus::Triaxial;
    bool drained = true; ///< else constant volume
    double vertical_stress_kPa = 100, K0 = 1, void_ratio = 0.8;
    std::vector<LoadingLeg> legs;
    double strain_step = 1e-4;

    // What ends the test before its course is complete, looked at after every step.
    double stop_strain = 0.2;             ///< driven strain beyond it, either way
    double stop_double_amplitude = never; ///< driven strain this far from the last turning point
    double stop_stress_ratio = never;     ///< stress_ratio() up to it, either way
    double stop_excess_pressure_ratio = never;
    double stop_mean_stress_kPa = 0; ///< mean stress below it

    static constexpr double never = std::numeric_limits<double>::infinity();
};

/// The element at one instant; stresses effective [kPa], strains since the start, shortening positive [-].
struct LaboratoryPoint {
    double axial_strain = 0, shear_strain = 0, volumetric_strain = 0; ///< shear: gamma
    double vertical_stress_kPa = 0, lateral_stress_kPa = 0, second_lateral_stress_kPa = 0,
           shear_stress_kPa = 0;
    double mean_stress_kPa = 0;
    double q_kPa = 0; ///< vertical minus lateral; sqrt(3 J2) in shear tests
    double void_ratio = 0;
    /// r_u of an undrained test: loss of the effective stress whose total stress a laboratory holds (lateral; simple shear:
    /// vertical) over its initial value; 0 in a drained test.
    double excess_pressure_ratio = 0;
};

/// q over mean stress; in shear tests shear stress over vertical stress.
double stress_ratio(const LaboratoryPoint& point, Apparatus apparatus);

enum class TestEnd {
    Completed,
    StrainLimit,
    DoubleAmplitude,
    StressRatio,
    ExcessPressureRatio,
    MeanStressLimit,
    CannotGoOn
};

struct LaboratoryResult {
    std::vector<LaboratoryPoint> points; ///< the first is the start, then every step
    TestEnd end = TestEnd::Completed;
    std::size_t legs_begun = 0; ///< half cycles in a cyclic test
};

/// A test that cannot go on, or ends at a limit, keeps what was reached.
LaboratoryResult run_laboratory_test(const SoilModel& soil, const LaboratoryTest& test);

} // namespace interpile::solver
