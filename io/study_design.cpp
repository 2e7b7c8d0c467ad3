#include "io/study_design.h"

#include <numeric>
#include <random>
#include <utility>

namespace interpile::io {

namespace {

/// The engine is the same everywhere, the distributions of the standard library are not.
class Random {
public:
    explicit Random(std::uint32_t seed) : engine_(seed) {}
    /// 0 .. 1, without 1.
    double uniform() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
    std::size_t below(std::size_t count) {
        return static_cast<std::size_t>(uniform() * static_cast<double>(count));
    }

private:
    std::mt19937_64 engine_;
};

} // namespace

std::vector<std::vector<std::size_t>> grid_design(const std::vector<std::size_t>& counts) {
    std::vector<std::vector<std::size_t>> members = {{}};
    for (const std::size_t count : counts) {
        std::vector<std::vector<std::size_t>> longer;
        for (const auto& member : members)
            for (std::size_t k = 0; k < count; ++k) {
                longer.push_back(member);
                longer.back().push_back(k);
            }
        members = std::move(longer);
    }
    return members;
}

std::vector<std::vector<double>> latin_hypercube(std::size_t members, std::size_t factors,
                                                 std::uint32_t seed) {
    Random random(seed);
    std::vector<std::vector<double>> sample(members, std::vector<double>(factors));
    std::vector<std::size_t> part(members);
    for (std::size_t factor = 0; factor < factors; ++factor) {
        std::iota(part.begin(), part.end(), std::size_t{0});
        for (std::size_t left = members; left > 1; --left)
            std::swap(part[left - 1], part[random.below(left)]);
        for (std::size_t k = 0; k < members; ++k)
            sample[k][factor] =
                (static_cast<double>(part[k]) + random.uniform()) / static_cast<double>(members);
    }
    return sample;
}

} // namespace interpile::io
