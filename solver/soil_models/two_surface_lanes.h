#pragma once
// Many cells of the two-surface sand, several at a time: the substeps of TwoSurfaceIntegration in vector instructions.

#include "solver/soil_models/two_surface_integration.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace interpile::solver {

/// Every lane carries one cell through its increment at its own substeps; a cell that is done makes room for the next.
/// What is rare (elastic parts, soil at the least mean stress) is left to the scalar integration, lane by lane, so that
/// both give the same path up to round-off.
template <int N>
class TwoSurfaceLanes {
public:
    TwoSurfaceLanes(const TwoSurfaceConstants& constants, const SubstepSettings& settings,
                    const TwoSurfaceIntegration<N>& scalar)
        : k_(constants), settings_(settings), scalar_(scalar) {}

    /// Advance cells first .. first + count - 1.
    /// \param load   (cell, SandState<N>&, SandTensor<N>& dE): its state and strain increment
    /// \param store  (cell, const SandState<N>&, bool plastic): its state at the end
    /// \throws std::runtime_error as TwoSurfaceIntegration::advance, naming the cell
    template <class Load, class Store>
    void advance(Eigen::Index first, Eigen::Index count, Load load, Store store) const {
        Batch b;
        Eigen::Index next = first;
        const auto fill = [&](int lane) {
            b.cell[lane] = next < first + count ? next++ : none;
            if (b.cell[lane] == none)
                return;
            SandState<N> state;
            SandTensor<N> dE;
            load(b.cell[lane], state, dE);
            put(b, lane, state);
            put(b.dE, lane, dE);
            b.done[lane] = 0;
            b.size[lane] = 1;
            b.substeps[lane] = 0;
            b.plastic[lane] = false;
        };
        for (int lane = 0; lane < lane_count; ++lane)
            fill(lane);
        for (int lane = 1; lane < lane_count; ++lane) // a lane without a cell repeats the first
            if (b.cell[lane] == none)
                copy(b, lane, 0);
        while (std::any_of(b.cell.begin(), b.cell.end(), [](Eigen::Index c) { return c != none; })) {
            substep(b);
            for (int lane = 0; lane < lane_count; ++lane)
                if (b.cell[lane] != none && b.done[lane] >= 1) {
                    SandState<N> state = take(b, lane);
                    scalar_.note_reversal(state);
                    store(b.cell[lane], state, b.plastic[lane]);
                    fill(lane);
                }
        }
    }

private:
    static constexpr Eigen::Index none = -1;

    struct Batch {
        SandState<N, Lanes> state{};
        SandTensor<N, Lanes> dE{};
        Lanes done{}, size{};
        std::array<Eigen::Index, lane_count> cell{};
        std::array<int, lane_count> substeps{};
        std::array<bool, lane_count> plastic{};
    };

    static void put(SandTensor<N, Lanes>& to, int lane, const SandTensor<N>& from) {
        for (int k = 0; k < N; ++k)
            to[k][lane] = from[k];
    }
    static SandTensor<N> take(const SandTensor<N, Lanes>& from, int lane) {
        SandTensor<N> t;
        for (int k = 0; k < N; ++k)
            t[k] = from[k][lane];
        return t;
    }
    static void put(Batch& b, int lane, const SandState<N>& s) {
        put(b.state.S, lane, s.S);
        put(b.state.a, lane, s.a);
        put(b.state.a_in, lane, s.a_in);
        put(b.state.z, lane, s.z);
        b.state.e[lane] = s.e;
    }
    static SandState<N> take(const Batch& b, int lane) {
        return {take(b.state.S, lane), take(b.state.a, lane), take(b.state.a_in, lane), take(b.state.z, lane),
                b.state.e[lane]};
    }
    static void copy(Batch& b, int to, int from) {
        put(b, to, take(b, from));
        put(b.dE, to, take(b.dE, from));
        b.size[to] = b.size[from];
    }
    static SandTensor<N, Lanes> choose(const LaneMask& mask, const SandTensor<N, Lanes>& x,
                                       const SandTensor<N, Lanes>& y) {
        SandTensor<N, Lanes> t;
        for (int k = 0; k < N; ++k)
            t[k] = mask ? x[k] : y[k];
        return t;
    }

    /// One substep of every lane, or one cut of its size.
    void substep(Batch& b) const {
        b.size = smaller(b.size, 1 - b.done);
        SandRates<N, Lanes> q1 = sand_rates(b.state, b.dE, k_);
        SandTensor<N, Lanes> from_axis = q1.r - b.state.a;
        const LaneMask plastic = (norm(from_axis) - root_2_3 * k_.m >= -scalar_.on_cone) & (q1.L > 0);
        const LaneMask reverses = plastic & (dot(b.state.a - b.state.a_in, from_axis) < 0);
        if (any(reverses)) {
            b.state.a_in = choose(reverses, b.state.a, b.state.a_in);
            q1 = sand_rates(b.state, b.dE, k_);
        }
        plastic_substep(b, q1, plastic);
        for (int lane = 0; lane < lane_count; ++lane) {
            if (b.cell[lane] == none)
                continue;
            if (plastic[lane])
                b.plastic[lane] = true;
            else
                elastic_substep(b, lane);
            check(b, lane);
        }
    }

    void check(Batch& b, int lane) const {
        try {
            scalar_.check(b.state.S[0][lane] + b.state.S[1][lane] + b.state.S[2][lane], ++b.substeps[lane]);
        } catch (const std::runtime_error& trouble) {
            throw std::runtime_error(fmt::format("cell {}: {} (void ratio {:.3f}, strain {:.2e})",
                                                 b.cell[lane], trouble.what(), b.state.e[lane],
                                                 norm(take(b.dE, lane))));
        }
    }

    void elastic_substep(Batch& b, int lane) const {
        SandState<N> state = take(b, lane);
        const double size = b.size[lane];
        b.done[lane] +=
            size * scalar_.elastic_substep(state, size * take(b.dE, lane), settings_.least / size);
        put(b, lane, state);
    }

    /// As TwoSurfaceIntegration::plastic_substep, in the lanes of the mask; one trial instead of a loop.
    void plastic_substep(Batch& b, const SandRates<N, Lanes>& q1, const LaneMask& plastic) const {
        const Lanes taken = b.size;
        SandState<N, Lanes> end = b.state;
        end.S += taken * q1.dS;
        end.a += taken * q1.da;
        end.z += taken * q1.dz;
        scalar_.strain_density(end, taken * b.dE);
        const SandRates<N, Lanes> q2 = sand_rates(end, b.dE, k_);
        const Lanes error = scalar_.substep_error(b.state, q1, q2, taken);
        const Lanes factor = 0.9 * root(settings_.tolerance / larger(error, 1e-30));
        const LaneMask accepted = plastic & ((error <= settings_.tolerance) | (taken <= settings_.least));
        const Lanes largest = accepted ? same(settings_.growth, taken) : same(0.9, taken);
        const Lanes next = larger(taken * larger(smaller(factor, largest), 0.1), settings_.least);
        b.size = plastic ? next : b.size;
        if (!any(accepted))
            return;
        const Lanes half = 0.5 * taken;
        end.S = b.state.S + half * (q1.dS + q2.dS);
        end.a = b.state.a + half * (q1.da + q2.da);
        end.z = b.state.z + half * (q1.dz + q2.dz);
        hold_low_stress(end, accepted);
        scalar_.pull_cone(end);
        b.state.S = choose(accepted, end.S, b.state.S);
        b.state.a = choose(accepted, end.a, b.state.a);
        b.state.z = choose(accepted, end.z, b.state.z);
        b.state.e = accepted ? end.e : b.state.e;
        b.done = accepted ? b.done + taken : b.done;
    }

    void hold_low_stress(SandState<N, Lanes>& end, const LaneMask& accepted) const {
        const LaneMask low = accepted & (trace(end.S) < 3 * k_.p_min);
        if (!any(low))
            return;
        for (int lane = 0; lane < lane_count; ++lane)
            if (low[lane]) {
                SandState<N> state = {take(end.S, lane), take(end.a, lane), {}, {}, 0};
                scalar_.hold_low_stress(state);
                put(end.S, lane, state.S);
            }
    }

    const TwoSurfaceConstants& k_;
    const SubstepSettings& settings_;
    const TwoSurfaceIntegration<N>& scalar_;
};

} // namespace interpile::solver
