#pragma once
// Several cells at once: formulas written for a type T serve double and Lanes, whose operators are vector instructions
// (a language extension of g++ and clang; on other processors the compiler spells them out).

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace interpile::solver {

#if defined(__AVX512F__)
inline constexpr int lane_count = 8;
#elif defined(__AVX__)
inline constexpr int lane_count = 4;
#else
inline constexpr int lane_count = 2;
#endif
typedef double Lanes __attribute__((vector_size(lane_count * sizeof(double))));
using LaneMask = decltype(Lanes{} < Lanes{}); ///< all bits set where a comparison holds

inline double root(double x) {
    return std::sqrt(x);
}
inline double exponential(double x) {
    return std::exp(x);
}
/// x^y for x > 0
inline double power(double x, double y) {
    return std::pow(x, y);
}
inline double larger(double x, double y) {
    return std::max(x, y);
}
inline double smaller(double x, double y) {
    return std::min(x, y);
}
/// The value x, in every lane of a type like that of the second argument.
inline double same(double x, double) {
    return x;
}

namespace detail {
/// Functions that the operators do not have: Eigen's, which are vector instructions too.
template <class F>
Lanes by_eigen(const Lanes& x, F f) {
    Eigen::Array<double, lane_count, 1> a;
    std::memcpy(a.data(), &x, sizeof x);
    a = f(a).eval();
    Lanes y;
    std::memcpy(&y, a.data(), sizeof y);
    return y;
}
} // namespace detail

inline Lanes root(const Lanes& x) {
    return detail::by_eigen(x, [](const auto& a) { return a.sqrt(); });
}
inline Lanes exponential(const Lanes& x) {
    return detail::by_eigen(x, [](const auto& a) { return a.exp(); });
}
inline Lanes power(const Lanes& x, double y) {
    return detail::by_eigen(x, [y](const auto& a) { return (y * a.log()).exp(); });
}
inline Lanes same(double x, const Lanes&) {
    return Lanes{} + x;
}
inline Lanes larger(const Lanes& x, const Lanes& y) {
    return x > y ? x : y;
}
inline Lanes larger(const Lanes& x, double y) {
    return larger(x, same(y, x));
}
inline Lanes smaller(const Lanes& x, const Lanes& y) {
    return x < y ? x : y;
}
inline Lanes smaller(const Lanes& x, double y) {
    return smaller(x, same(y, x));
}

inline bool any(const LaneMask& mask) {
    decltype(mask[0] | mask[0]) bits = 0;
    for (int lane = 0; lane < lane_count; ++lane)
        bits |= mask[lane];
    return bits != 0;
}

} // namespace interpile::solver
