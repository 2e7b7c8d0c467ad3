#include "solver/laboratory_test.h"

#include "solver/element_test.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

namespace interpile::solver {

bool is_shear(Apparatus apparatus) {
    return apparatus == Apparatus::SimpleShear || apparatus == Apparatus::TorsionalShear;
}

bool can_be_undrained(Apparatus apparatus) {
    return apparatus == Apparatus::Triaxial || apparatus == Apparatus::Biaxial ||
           apparatus == Apparatus::SimpleShear;
}

double stress_ratio(const LaboratoryPoint& point, Apparatus apparatus) {
    return is_shear(apparatus) ? point.shear_stress_kPa / point.vertical_stress_kPa
                               : point.q_kPa / point.mean_stress_kPa;
}

namespace {

using Control = std::array<ElementControl, 4>;
constexpr auto strain = ElementControl::Strain;
constexpr auto stress = ElementControl::Stress;
constexpr auto like_xx = ElementControl::LikeXX;

/// Place of the vertical among xx, yy, zz. Shear exists in x-y only, so that y is vertical in shear and plane strain.
int vertical_of(Apparatus apparatus) {
    return is_shear(apparatus) || apparatus == Apparatus::Biaxial ? 1 : 2;
}

/// The stress state turned into what is driven, held and recorded.
class Specimen {
public:
    Specimen(const SoilModel& soil, const LaboratoryTest& test)
        : test_(&test), vertical_(vertical_of(test.apparatus)),
          element_(soil, at_rest(test), test.void_ratio) {}

    /// Move the driven strain on. \return false and nothing changed if the held stresses cannot be met
    bool step(double driven) {
        try {
            return element_.step(control(driven));
        } catch (const std::runtime_error&) { // no admissible stress for this strain
            return false;
        }
    }

    LaboratoryPoint point() const {
        const auto s = element_.stress();
        LaboratoryPoint p;
        p.axial_strain = element_.strain()[vertical_];
        p.shear_strain = 2 * element_.strain()[3];
        p.volumetric_strain = element_.volumetric_strain();
        p.vertical_stress_kPa = s[vertical_];
        p.lateral_stress_kPa = s[0];
        p.second_lateral_stress_kPa = s[3 - vertical_];
        p.shear_stress_kPa = s[3];
        p.mean_stress_kPa = element_.mean_stress_kPa();
        p.void_ratio = element_.void_ratio();
        const double a = s[0] - s[1], b = s[1] - s[2], c = s[2] - s[0];
        p.q_kPa = is_shear(test_->apparatus) ? std::sqrt(0.5 * (a * a + b * b + c * c) + 3 * s[3] * s[3])
                                             : p.vertical_stress_kPa - p.lateral_stress_kPa;
        if (!test_->drained)
            p.excess_pressure_ratio =
                1 - (is_shear(test_->apparatus)
                         ? p.vertical_stress_kPa / test_->vertical_stress_kPa
                         : p.lateral_stress_kPa / (test_->K0 * test_->vertical_stress_kPa));
        return p;
    }

    double driven_strain() const {
        const auto p = point();
        return is_shear(test_->apparatus) ? p.shear_strain : p.axial_strain;
    }

    double driven_stress() const {
        const auto p = point();
        if (test_->apparatus == Apparatus::Oedometer)
            return p.vertical_stress_kPa;
        return is_shear(test_->apparatus) ? p.shear_stress_kPa : p.q_kPa;
    }

private:
    static std::array<double, 4> at_rest(const LaboratoryTest& test) {
        const double lateral = test.K0 * test.vertical_stress_kPa;
        std::array<double, 4> s = {lateral, lateral, lateral, 0};
        s[vertical_of(test.apparatus)] = test.vertical_stress_kPa;
        return s;
    }

    Control control(double d) const {
        const double vertical = test_->vertical_stress_kPa, lateral = test_->K0 * vertical;
        const bool drained = test_->drained;
        switch (test_->apparatus) {
        case Apparatus::Triaxial:
            return drained ? Control{{{stress, lateral}, {like_xx, 0}, {strain, d}, {strain, 0}}}
                           : Control{{{strain, -d / 2}, {strain, -d / 2}, {strain, d}, {strain, 0}}};
        case Apparatus::TriaxialConstantP:
            return {{{ElementControl::MeanStress, (vertical + 2 * lateral) / 3},
                     {like_xx, 0},
                     {strain, d},
                     {strain, 0}}};
        case Apparatus::Biaxial:
            return {{drained ? ElementControl{stress, lateral} : ElementControl{strain, -d},
                     {strain, d},
                     {strain, 0},
                     {strain, 0}}};
        case Apparatus::SimpleShear:
            return {{{strain, 0},
                     drained ? ElementControl{stress, vertical} : ElementControl{strain, 0},
                     {strain, 0},
                     {strain, d / 2}}};
        case Apparatus::TorsionalShear:
            return {{{stress, lateral}, {stress, vertical}, {stress, lateral}, {strain, d / 2}}};
        case Apparatus::Oedometer:
            return {{{strain, 0}, {strain, 0}, {strain, d}, {strain, 0}}};
        }
        return {};
    }

    const LaboratoryTest* test_;
    int vertical_;
    ElementTest element_;
};

class Course {
public:
    Course(const SoilModel& soil, const LaboratoryTest& test) : test_(test), specimen_(soil, test) {
        result_.points.push_back(specimen_.point());
    }

    LaboratoryResult run() {
        for (const LoadingLeg& leg : test_.legs)
            if (!drive(leg))
                break;
        return std::move(result_);
    }

private:
    double reached(const Specimen& specimen, const LoadingLeg& leg) const {
        return leg.until == LoadingLeg::Strain ? specimen.driven_strain() : specimen.driven_stress();
    }

    /// One leg. \return whether the next may follow
    bool drive(const LoadingLeg& leg) {
        ++result_.legs_begun;
        turning_strain_ = specimen_.driven_strain();
        const double direction = leg.target >= reached(specimen_, leg) ? 1 : -1;
        const double rounding = 1e-12 * std::max(1.0, std::abs(leg.target));
        while (direction * (leg.target - reached(specimen_, leg)) > rounding) {
            double step = direction * test_.strain_step;
            if (leg.until == LoadingLeg::Strain) { // equal steps, the last one on the target
                const double rest = leg.target - specimen_.driven_strain();
                step = rest / std::ceil(std::abs(rest) / test_.strain_step - 1e-9);
            }
            const Specimen before = specimen_;
            if (!take(step))
                return end(TestEnd::CannotGoOn);
            if (leg.until == LoadingLeg::Stress &&
                direction * (reached(specimen_, leg) - leg.target) > rounding)
                land(before, step, leg, direction);
            result_.points.push_back(specimen_.point());
            if (const auto limit = limit_met())
                return end(*limit);
        }
        return true;
    }

    std::optional<TestEnd> limit_met() const {
        const LaboratoryPoint& now = result_.points.back();
        const double strain = specimen_.driven_strain();
        if (std::abs(strain) > test_.stop_strain + 1e-12)
            return TestEnd::StrainLimit;
        // The first leg comes from the start, not from a turning point.
        if (result_.legs_begun > 1 &&
            std::abs(strain - turning_strain_) >= test_.stop_double_amplitude - 1e-12)
            return TestEnd::DoubleAmplitude;
        if (std::abs(stress_ratio(now, test_.apparatus)) >= test_.stop_stress_ratio)
            return TestEnd::StressRatio;
        if (now.excess_pressure_ratio >= test_.stop_excess_pressure_ratio)
            return TestEnd::ExcessPressureRatio;
        if (now.mean_stress_kPa < test_.stop_mean_stress_kPa)
            return TestEnd::MeanStressLimit;
        return std::nullopt;
    }

    bool end(TestEnd how) {
        result_.end = how;
        return false;
    }

    /// One step, in up to 64 parts where it is too large for the held stresses.
    bool take(double step) {
        for (int parts = 1; parts <= 64; parts *= 4) {
            Specimen trial = specimen_;
            int taken = 0;
            while (taken < parts && trial.step(step / parts))
                ++taken;
            if (taken == parts) {
                specimen_ = trial;
                return true;
            }
        }
        return false;
    }

    /// The part of the last step that ends on the target stress, by halving.
    void land(const Specimen& before, double step, const LoadingLeg& leg, double direction) {
        double low = 0, high = 1;
        const double tolerance = 1e-4 * std::max(1.0, std::abs(leg.target));
        for (int n = 0; n < 40; ++n) {
            const double share = 0.5 * (low + high);
            Specimen trial = before;
            if (!trial.step(share * step))
                return; // keep the whole step: the target is overshot by part of a step
            const double beyond = direction * (reached(trial, leg) - leg.target);
            (beyond >= 0 ? high : low) = share;
            if (beyond >= 0 && beyond < tolerance) {
                specimen_ = trial;
                return;
            }
        }
    }

    const LaboratoryTest& test_;
    Specimen specimen_;
    LaboratoryResult result_;
    double turning_strain_ = 0; ///< driven strain where the present leg began
};

} // namespace

LaboratoryResult run_laboratory_test(const SoilModel& soil, const LaboratoryTest& test) {
    return Course(soil, test).run();
}

} // namespace interpile::solver
