#pragma once
// Symmetric tensors of fixed size for the sand: N = 4 holds xx, yy, zz, xy (a slice), N = 6 holds 11, 22, 33, 12, 23, 31.

#include <array>
#include <cmath>

namespace interpile::solver {

template <int N>
struct SandTensor {
    std::array<double, N> c{};

    double& operator[](int k) { return c[k]; }
    double operator[](int k) const { return c[k]; }
    SandTensor& operator+=(const SandTensor& o) {
        for (int k = 0; k < N; ++k)
            c[k] += o.c[k];
        return *this;
    }
    friend SandTensor operator+(SandTensor a, const SandTensor& b) { return a += b; }
    friend SandTensor operator-(SandTensor a, const SandTensor& b) {
        for (int k = 0; k < N; ++k)
            a.c[k] -= b.c[k];
        return a;
    }
    friend SandTensor operator*(double f, SandTensor a) {
        for (double& x : a.c)
            x *= f;
        return a;
    }
};

template <int N>
double trace(const SandTensor<N>& t) {
    return t[0] + t[1] + t[2];
}

/// a : b = a_ij b_ij
template <int N>
double dot(const SandTensor<N>& a, const SandTensor<N>& b) {
    double normal = a[0] * b[0] + a[1] * b[1] + a[2] * b[2], shear = 0;
    for (int k = 3; k < N; ++k)
        shear += a[k] * b[k];
    return normal + 2 * shear;
}

template <int N>
double norm(const SandTensor<N>& t) {
    return std::sqrt(dot(t, t));
}

/// t + f I
template <int N>
SandTensor<N> plus_identity(SandTensor<N> t, double f) {
    for (int k = 0; k < 3; ++k)
        t[k] += f;
    return t;
}

/// t . t
inline SandTensor<4> square(const SandTensor<4>& t) {
    const double xy2 = t[3] * t[3];
    return {{t[0] * t[0] + xy2, t[1] * t[1] + xy2, t[2] * t[2], t[3] * (t[0] + t[1])}};
}
inline SandTensor<6> square(const SandTensor<6>& t) {
    const auto [a, b, c, d, e, f] = t.c; // 11 22 33 12 23 31
    return {{a * a + d * d + f * f, b * b + d * d + e * e, c * c + e * e + f * f, a * d + d * b + f * e,
             d * f + b * e + e * c, a * f + d * e + f * c}};
}

} // namespace interpile::solver
