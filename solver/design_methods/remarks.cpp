#include "solver/design_methods/remarks.h"

#include <fmt/format.h>

namespace interpile::solver {
namespace {

// Where 1.05 - c log10 Fc passes 1.
constexpr double beta_cap_fines_pct = 1.253; // c = 0.51
constexpr double r_c_cap_fines_pct = 1.284;  // c = 0.46

} // namespace

std::vector<std::string> fines_remarks(DesignMethod method, double fines_pct, bool limits_by_hirama) {
    std::vector<std::string> remarks;
    const auto add_if = [&](bool condition, const char* text) {
        if (condition)
            remarks.push_back(fmt::format("fines {:.3g} %: {}", fines_pct, text));
    };
    switch (method) {
    case DesignMethod::A:
        add_if(fines_pct > 20, "method A is for sand of at most 20 % fines");
        return remarks; // needs no void ratio
    case DesignMethod::B:
        add_if(fines_pct > 5, "method B is for clean sand (at most 5 % fines)");
        break;
    case DesignMethod::C:
        add_if(fines_pct < 2 || fines_pct > 40, "method C is for 2 to 40 % fines");
        add_if(fines_pct < beta_cap_fines_pct, "beta capped at 1");
        break;
    case DesignMethod::D:
        add_if(fines_pct < r_c_cap_fines_pct, "R_c capped at 1");
        break;
    }
    add_if(limits_by_hirama && fines_pct > 40, "e_max and e_min by Hirama hold to about 40 % fines");
    return remarks;
}

void add_ratio_remark(DesignResult& result) {
    constexpr double low = 0.05, high = 0.20;
    const double ratio = result.replacement_ratio;
    if ((ratio > 0 && ratio < low) || ratio > high)
        result.remarks.push_back(
            fmt::format("replacement ratio {:.3f} is outside the usual {:.2f} .. {:.2f}", ratio, low, high));
}

} // namespace interpile::solver
