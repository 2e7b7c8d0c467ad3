#pragma once
// Rate equations of the two-surface critical-state sand model of Dafalias & Manzari (2004), J. Eng. Mech. 130(6), 622-634
// (from memory). Compression and contraction positive; letters as in the paper.

#include "solver/soil_models/sand_tensor.h"

#include <cmath>

namespace interpile::solver {

struct TwoSurfaceConstants {
    double G0 = 125, nu = 0.05; // elasticity
    double M = 1.25, c = 0.712; // critical state: ratio q/p in compression, extension over it
    double lambda_c = 0.019, e0 = 0.934, xi = 0.7; // critical state line e_c = e0 - lambda_c (p/pa)^xi
    double m = 0.05;                               // size of the yield cone
    double h0 = 7.05, ch = 0.968, nb = 1.1;        // plastic modulus
    double A0 = 0.704, nd = 3.5;                   // dilatancy
    double z_max = 4, cz = 600;                    // fabric
    double pa = 101.325;                           // atmospheric pressure, kPa
    double p_min = 1;                              // least mean stress in stiffness and stress ratio, kPa
};

/// Stress S [kPa], back-stress ratio a, its value at the last reversal a_in, fabric z, void ratio e.
template <int N, class T = double>
struct SandState {
    SandTensor<N, T> S, a, a_in, z;
    T e;
};

/// Everything the rates are made of, for one state and one strain increment.
template <int N, class T = double>
struct SandRates {
    T p, G, K, cos3t, g, e_c, psi, a_b, a_d, a_n, b0, h, Kp, Ad, D, B, C, den, L;
    SandTensor<N, T> n, r, R; ///< r = s/p; R is the deviator of the flow direction
    SandTensor<N, T> dS, da, dz;
};

constexpr double root_2_3 = 0.816496580927726; // sqrt(2/3)

template <int N, class T>
T mean_stress(const SandTensor<N, T>& S, const TwoSurfaceConstants& k) {
    return larger(trace(S) / 3, k.p_min);
}

template <class T>
T critical_void_ratio(const T& p, const TwoSurfaceConstants& k) {
    return k.e0 - k.lambda_c * power(p / k.pa, k.xi);
}

/// G = G0 pa (2.97-e)^2/(1+e) (p/pa)^1/2 [kPa], from (p/pa)^1/2
template <class T>
T sand_shear_modulus_at(const T& root_p, const T& e, const TwoSurfaceConstants& k) {
    return k.G0 * k.pa * (2.97 - e) * (2.97 - e) / (1 + e) * root_p;
}
template <class T>
T sand_shear_modulus(const T& p, const T& e, const TwoSurfaceConstants& k) {
    return sand_shear_modulus_at<T>(root(p / k.pa), e, k);
}

/// K = 2(1+nu)/(3(1-2nu)) G [kPa]
template <class T>
T sand_bulk_modulus(const T& G, const TwoSurfaceConstants& k) {
    return 2 * (1 + k.nu) / (3 * (1 - 2 * k.nu)) * G;
}

/// r = s/p at the mean stress p
template <int N, class T>
SandTensor<N, T> stress_ratio(const SandTensor<N, T>& S, const T& p) {
    return T(1 / p) * plus_identity(S, -trace(S) / 3);
}

/// Distance to the cone over the mean stress: |r - a| - sqrt(2/3) m; positive outside.
template <int N, class T>
T cone_distance(const SandState<N, T>& state, const TwoSurfaceConstants& k) {
    return norm(stress_ratio(state.S, mean_stress(state.S, k)) - state.a) - root_2_3 * k.m;
}

/// Elastic rates only.
template <int N, class T>
SandTensor<N, T> elastic_rate(const SandState<N, T>& state, const SandTensor<N, T>& dE,
                              const TwoSurfaceConstants& k) {
    const T G = sand_shear_modulus(mean_stress(state.S, k), state.e, k);
    const T K = sand_bulk_modulus(G, k);
    return plus_identity(T(2 * G) * dE, (K - 2 * G / 3) * trace(dE));
}

/// Elastic-plastic rates on the cone. L = 0: the increment unloads, dS is elastic, da = dz = 0.
template <int N, class T>
SandRates<N, T> sand_rates(const SandState<N, T>& state, const SandTensor<N, T>& dE,
                           const TwoSurfaceConstants& k) {
    SandRates<N, T> q;
    q.p = mean_stress(state.S, k);
    const T root_p = root(q.p / k.pa);
    q.G = sand_shear_modulus_at(root_p, state.e, k);
    q.K = sand_bulk_modulus(q.G, k);
    q.r = stress_ratio(state.S, q.p);
    const SandTensor<N, T> from_axis = q.r - state.a;
    q.n = T(1 / larger(norm(from_axis), 1e-12)) * from_axis;
    const SandTensor<N, T> n2 = square(q.n);
    const T n3 = dot(n2, q.n);
    q.cos3t = larger(smaller(std::sqrt(6.0) * n3, 1.0), -1.0);
    q.g = 2 * k.c / ((1 + k.c) - (1 - k.c) * q.cos3t);
    q.e_c = critical_void_ratio(q.p, k);
    q.psi = state.e - q.e_c;
    q.a_b = root_2_3 * (q.g * k.M * exponential(-k.nb * q.psi) - k.m);
    q.a_d = root_2_3 * (q.g * k.M * exponential(k.nd * q.psi) - k.m);
    q.a_n = dot(state.a, q.n);
    // Beyond e = 1/ch, looser than any sand, the modulus would change its sign.
    q.b0 = k.G0 * k.h0 * larger(1 - k.ch * state.e, 0.01) / root_p;
    q.h = q.b0 / larger(q.a_n - dot(state.a_in, q.n), 1e-6);
    q.Kp = 2.0 / 3 * q.p * q.h * (q.a_b - q.a_n);
    q.Ad = k.A0 * (1 + larger(dot(state.z, q.n), 0.0));
    q.D = q.Ad * (q.a_d - q.a_n);
    q.B = 1 + 1.5 * (1 - k.c) / k.c * q.g * q.cos3t;
    q.C = 3 * std::sqrt(1.5) * (1 - k.c) / k.c * q.g;
    q.R = q.B * q.n - q.C * plus_identity(n2, same(-1.0 / 3, q.p));
    const T n_r = dot(q.n, q.r), dv = trace(dE);
    q.den = q.Kp + 2 * q.G * (q.B - q.C * n3) - q.K * q.D * n_r;
    // Just after a reversal outside the bounding surface h, and with it the softening, is unbounded; at the floor of the
    // mean stress the ratio is arbitrary. The way back is taken at a limited rate instead of none (own choice).
    q.den = larger(q.den, 0.1 * q.G);
    q.L = larger((2 * q.G * dot(q.n, dE) - n_r * q.K * dv) / q.den, 0.0);
    q.dS =
        plus_identity(T(2 * q.G) * dE - T(q.L * 2 * q.G) * q.R, (q.K - 2 * q.G / 3) * dv - q.L * q.K * q.D);
    q.da = T(q.L * (2.0 / 3) * q.h) * (q.a_b * q.n - state.a);
    q.dz = T(-k.cz * larger(-q.L * q.D, 0.0)) * (same(k.z_max, q.p) * q.n + state.z);
    return q;
}

} // namespace interpile::solver
