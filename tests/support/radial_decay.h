#pragma once
// Exact radial diffusion from any start pressure: a series of Bessel functions.

#include <cmath>
#include <cstddef>
#include <vector>

namespace interpile::test {

/// du/dt = c (1/r) d/dr(r du/dr) from a start field that is continuous and linear in ln(r) between given radii.
/// u = sum over k of C V(k r) exp(-k^2 c t), V = J0(k r) Y(k r0) - Y0(k r) J(k r0), J and Y of order 1 at a closed inner
/// wall, 0 at an open one, V = J0(k r) without one. With r V'' + V' = -k^2 r V, C and the norm need no quadrature:
///   int u V r dr = [u r V1]/k + sum over pieces of (r du/dr) (V(b) - V(a))/k^2,   V1 = -V'/k,
///   int V^2 r dr = [r^2 (V^2 + V1^2)]/2.
/// Source: from memory of Carslaw & Jaeger (1959), Conduction of heat in solids, 7.8, 7.10, and Randolph & Wroth (1979),
/// Geotechnique 29(4), who use it for the logarithmic field around a pile; the integrals derived. Tables bm4_*.
class RadialDecay {
public:
    enum class Wall { None, Closed, Open };

    /// \param radius  rising; the first is the inner wall, 0 with Wall::None; the last is the outer end
    /// \param start   pressure there; with Wall::None alike at the first two radii
    /// \param outer   Open (no pressure) or Closed (no flow)
    /// \param largest_k  terms up to there [1/m]: exp(-k^2 c t) is what is left out
    RadialDecay(std::vector<double> radius, std::vector<double> start, Wall inner, Wall outer,
                double largest_k)
        : inner_(inner), r0_(radius.front()), r1_(radius.back()) {
        const int at_end = outer == Wall::Open ? 0 : 1;
        const double grain = 0.3 / (r1_ - r0_); // a tenth of the distance between roots
        if (outer == Wall::Closed && inner != Wall::Open)
            add_constant(radius, start);
        for (double k = grain; k < largest_k; k += grain)
            if (value(at_end, k, r1_) * value(at_end, k + grain, r1_) < 0)
                add_mode(root(at_end, k, k + grain), radius, start);
    }

    /// \param diffused  c t [m2]
    double operator()(double r, double diffused) const {
        double sum = constant_;
        for (const Mode& mode : modes_)
            sum += mode.share * value(0, mode.k, r) * std::exp(-mode.k * mode.k * diffused);
        return sum;
    }
    /// int u r dr from the inner wall to r [kPa m2].
    double content(double r, double diffused) const {
        double sum = constant_ * (r * r - r0_ * r0_) / 2;
        for (const Mode& mode : modes_)
            sum += mode.share * (r * value(1, mode.k, r) - r0_ * value(1, mode.k, r0_)) / mode.k *
                   std::exp(-mode.k * mode.k * diffused);
        return sum;
    }

private:
    struct Mode {
        double k, share;
    };
    /// V (order 0) or V1 (order 1).
    double value(int order, double k, double r) const {
        if (inner_ == Wall::None)
            return std::cyl_bessel_j(order, k * r);
        const int at_wall = inner_ == Wall::Open ? 0 : 1;
        return std::cyl_bessel_j(order, k * r) * std::cyl_neumann(at_wall, k * r0_) -
               std::cyl_neumann(order, k * r) * std::cyl_bessel_j(at_wall, k * r0_);
    }
    double root(int order, double low, double high) const {
        const bool rises = value(order, low, r1_) < 0;
        for (int n = 0; n < 50; ++n) {
            const double middle = 0.5 * (low + high);
            ((value(order, middle, r1_) < 0) == rises ? low : high) = middle;
        }
        return 0.5 * (low + high);
    }
    void add_mode(double k, const std::vector<double>& r, const std::vector<double>& u) {
        const auto flux = [&](double at, double pressure) { return pressure * at * value(1, k, at); };
        double content = r0_ > 0 ? -flux(r0_, u.front()) : 0;
        content = (content + flux(r1_, u.back())) / k;
        for (std::size_t n = 0; n + 1 < r.size(); ++n)
            if (u[n] != u[n + 1])
                content += (u[n + 1] - u[n]) / std::log(r[n + 1] / r[n]) *
                           (value(0, k, r[n + 1]) - value(0, k, r[n])) / (k * k);
        const auto square = [&](double at) {
            const double v = value(0, k, at), v1 = value(1, k, at);
            return at * at * (v * v + v1 * v1) / 2;
        };
        modes_.push_back({k, content / (square(r1_) - (r0_ > 0 ? square(r0_) : 0))});
    }
    /// Without a drain the mean stays.
    void add_constant(const std::vector<double>& r, const std::vector<double>& u) {
        double content = 0; // int u r dr
        for (std::size_t n = 0; n + 1 < r.size(); ++n) {
            content += (u[n + 1] * r[n + 1] * r[n + 1] - u[n] * r[n] * r[n]) / 2;
            if (u[n] != u[n + 1])
                content -=
                    (u[n + 1] - u[n]) / std::log(r[n + 1] / r[n]) * (r[n + 1] * r[n + 1] - r[n] * r[n]) / 4;
        }
        constant_ = 2 * content / (r1_ * r1_ - r0_ * r0_);
    }

    Wall inner_;
    double r0_, r1_;
    double constant_ = 0;
    std::vector<Mode> modes_;
};

} // namespace interpile::test
