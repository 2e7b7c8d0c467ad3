#pragma once
// Stress path of the two-surface sand over a strain increment: substeps with error control.

#include "solver/soil_models/two_surface_rates.h"

#include <optional>
#include <stdexcept>

namespace interpile::solver {

struct SubstepSettings {
    double tolerance = 1e-4; ///< relative error of a substep in S, a, z
    double least = 5e-4;     ///< smallest substep as a share of the increment; accepted whatever its error
    double growth = 2;       ///< largest ratio of a substep to the one before
};

/// Modified Euler pair with error control, after Sloan, Abbo & Sheng (2001), Eng. Computations 18(1/2), 121-154 (from
/// memory). The memory of the last reversal a_in is renewed where the path, after an elastic part, meets the cone on the
/// other side, and once more at the end. This happens within the trial, which always begins at the last kept state:
/// iterations leave no reversals behind, and the answer does not depend on the size of the increments.
template <int N>
class TwoSurfaceIntegration {
public:
    TwoSurfaceIntegration(const TwoSurfaceConstants& constants, const SubstepSettings& settings)
        : k_(constants), settings_(settings) {}

    /// Advance `state` by the strain increment dE (compression positive).
    /// \return whether any part was plastic
    /// \throws std::runtime_error if the stress is not a number or too many substeps are needed
    bool advance(SandState<N>& state, const SandTensor<N>& dE) const {
        bool plastic = false;
        double done = 0, size = 1;
        for (int count = 0; done < 1; ++count) {
            size = std::min(size, 1 - done);
            if (const auto rates = rates_on_cone(state, dE); rates && rates->L > 0) {
                plastic = true;
                done += plastic_substep(state, note_reversal(state) ? sand_rates(state, dE, k_) : *rates, dE,
                                        size);
            } else {
                done += size * elastic_substep(state, size * dE, settings_.least / size);
            }
            check(trace(state.S), count);
        }
        note_reversal(state);
        return plastic;
    }

    // The parts of a path, shared with TwoSurfaceLanes.

    static constexpr double on_cone = 1e-8; ///< distance within which a stress counts as on the cone

    /// Where loading goes back towards the back stress of the last reversal, the present one takes its place.
    /// \return whether it did
    bool note_reversal(SandState<N>& state) const {
        const double p = mean_stress(state.S, k_);
        const SandTensor<N> from_axis = stress_ratio(state.S, p) - state.a;
        const bool reverses = dot(state.a - state.a_in, from_axis) < 0;
        if (reverses)
            state.a_in = state.a;
        return reverses;
    }

    /// Void ratio after a strain: (1 + e) exp(-eps_v) - 1.
    template <class T>
    static void strain_density(SandState<N, T>& state, const SandTensor<N, T>& dE) {
        state.e = (1 + state.e) * exponential(-trace(dE)) - 1;
    }

    /// Difference of the first and second order answer over twice the size of S, a, z: the largest of the three.
    template <class T>
    T substep_error(const SandState<N, T>& state, const SandRates<N, T>& q1, const SandRates<N, T>& q2,
                    const T& taken) const {
        const auto squared = [](const SandTensor<N, T>& f1, const SandTensor<N, T>& f2,
                                const SandTensor<N, T>& y, double floor) {
            const SandTensor<N, T> d = f2 - f1;
            return T(dot(d, d) / (4 * dot(y, y) + floor * floor));
        };
        return taken *
               root(larger(squared(q1.dS, q2.dS, state.S, k_.p_min),
                           larger(squared(q1.da, q2.da, state.a, k_.m), squared(q1.dz, q2.dz, state.z, 1))));
    }

    /// Elastic part up to the cone, but at least the given share.
    /// \return share of dE taken, in (0, 1]
    double elastic_substep(SandState<N>& state, const SandTensor<N>& dE, double least_share) const {
        const SandTensor<N> first = elastic_rate(state, dE, k_);
        SandState<N> end = state;
        end.S += first;
        strain_density(end, dE);
        const SandTensor<N> dS = 0.5 * (first + elastic_rate(end, dE, k_));
        const auto at = [&](double share) {
            SandState<N> s = state;
            s.S += share * dS;
            return cone_distance(s, k_);
        };
        double share = 1;
        if (at(1) > on_cone) {
            // The cone is convex along a straight path: one crossing lies between an inner point and the end.
            double low = 1;
            do
                low /= 2;
            while (low > 1e-6 && at(low) > on_cone);
            double high = 2 * low;
            for (int n = 0; n < 60 && high - low > 1e-12; ++n) {
                const double middle = 0.5 * (low + high);
                (at(middle) > on_cone ? high : low) = middle;
            }
            share = std::min(1.0, std::max(high, least_share));
        }
        state.S += share * dS;
        strain_density(state, share * dE);
        hold_low_stress(state);
        return share;
    }

    /// Soil that has opened keeps the least mean stress, at its ratio.
    void hold_low_stress(SandState<N>& state) const {
        const double p = trace(state.S) / 3;
        if (p >= k_.p_min)
            return;
        SandTensor<N> r = (1 / k_.p_min) * plus_identity(state.S, -p);
        const SandTensor<N> from_axis = r - state.a;
        const double distance = norm(from_axis), radius = root_2_3 * k_.m;
        if (distance > radius)
            r = state.a + (radius / distance) * from_axis;
        state.S = plus_identity(k_.p_min * r, k_.p_min);
    }

    /// Remove drift by moving the cone, not the stress.
    template <class T>
    void pull_cone(SandState<N, T>& state) const {
        const SandTensor<N, T> r = stress_ratio(state.S, mean_stress(state.S, k_));
        const SandTensor<N, T> from_axis = r - state.a;
        state.a = r - T(root_2_3 * k_.m / larger(norm(from_axis), 1e-12)) * from_axis;
    }

    /// \throws std::runtime_error if the stress is not a number or too many substeps have been needed
    static void check(double trace_of_stress, int substeps) {
        if (!std::isfinite(trace_of_stress))
            throw std::runtime_error("the stress is not a number");
        if (substeps > 20000)
            throw std::runtime_error("more than 20 000 substeps in one increment");
    }

private:
    std::optional<SandRates<N>> rates_on_cone(const SandState<N>& state, const SandTensor<N>& dE) const {
        if (cone_distance(state, k_) < -on_cone)
            return {};
        return sand_rates(state, dE, k_);
    }

    /// One substep, cut until its error is small enough.
    /// \param q1    rates at its start for the whole increment dE, to which they are proportional
    /// \param size  in: share of dE to try first; out: to try next
    /// \return share of dE that was taken
    double plastic_substep(SandState<N>& state, const SandRates<N>& q1, const SandTensor<N>& dE,
                           double& size) const {
        SandState<N> end;
        SandRates<N> q2;
        double taken, factor;
        while (true) {
            taken = size;
            end = state;
            end.S += taken * q1.dS;
            end.a += taken * q1.da;
            end.z += taken * q1.dz;
            strain_density(end, taken * dE);
            q2 = sand_rates(end, dE, k_);
            const double error = substep_error(state, q1, q2, taken);
            factor = 0.9 * std::sqrt(settings_.tolerance / std::max(error, 1e-30));
            if (!(error > settings_.tolerance) || taken <= settings_.least)
                break;
            size = std::max(settings_.least, taken * std::clamp(factor, 0.1, 0.9));
        }
        state.S += 0.5 * taken * (q1.dS + q2.dS);
        state.a += 0.5 * taken * (q1.da + q2.da);
        state.z += 0.5 * taken * (q1.dz + q2.dz);
        state.e = end.e; // depends on the strain alone
        hold_low_stress(state);
        pull_cone(state);
        size = std::max(settings_.least, taken * std::clamp(factor, 0.1, settings_.growth));
        return taken;
    }

    const TwoSurfaceConstants& k_;
    const SubstepSettings& settings_;
};

} // namespace interpile::solver
