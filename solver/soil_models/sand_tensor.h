#pragma once
// Symmetric tensors of fixed size for the sand: N = 4 holds xx, yy, zz, xy (a slice), N = 6 holds 11, 22, 33, 12, 23, 31.

#include "solver/soil_models/lanes.h"

#include <array>
#include <type_traits>

namespace interpile::solver {

/// Components are of type T: double for one cell, Lanes for several cells at once.
template <int N, class T = double>
struct SandTensor {
    std::array<T, N> c;

    T& operator[](int k) { return c[k]; }
    const T& operator[](int k) const { return c[k]; }
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
    friend SandTensor operator*(const T& f, SandTensor a) {
        for (T& x : a.c)
            x *= f;
        return a;
    }
};

template <int N, class T>
T trace(const SandTensor<N, T>& t) {
    return t[0] + t[1] + t[2];
}

/// a : b = a_ij b_ij
template <int N, class T>
T dot(const SandTensor<N, T>& a, const SandTensor<N, T>& b) {
    T normal = a[0] * b[0] + a[1] * b[1] + a[2] * b[2], shear = a[3] * b[3];
    for (int k = 4; k < N; ++k)
        shear += a[k] * b[k];
    return normal + 2 * shear;
}

template <int N, class T>
T norm(const SandTensor<N, T>& t) {
    return root(dot(t, t));
}

/// t + f I
template <int N, class T>
SandTensor<N, T> plus_identity(SandTensor<N, T> t, const std::type_identity_t<T>& f) {
    for (int k = 0; k < 3; ++k)
        t[k] += f;
    return t;
}

/// t . t
template <class T>
SandTensor<4, T> square(const SandTensor<4, T>& t) {
    const T xy2 = t[3] * t[3];
    return {{t[0] * t[0] + xy2, t[1] * t[1] + xy2, t[2] * t[2], t[3] * (t[0] + t[1])}};
}
template <class T>
SandTensor<6, T> square(const SandTensor<6, T>& t) {
    const auto& [a, b, c, d, e, f] = t.c; // 11 22 33 12 23 31
    return {{a * a + d * d + f * f, b * b + d * d + e * e, c * c + e * e + f * f, a * d + d * b + f * e,
             d * f + b * e + e * c, a * f + d * e + f * c}};
}

} // namespace interpile::solver
