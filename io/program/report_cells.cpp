#include "io/program/report_cells.h"

#include "postprocess/label.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>

namespace interpile::program {

std::string cell(double value, int decimals) {
    if (std::isnan(value))
        return "\u2013";
    if (std::isinf(value))
        return value > 0 ? "\u221e" : "\u2212\u221e";
    return postprocess::number(value, decimals);
}

std::string cell(const std::optional<double>& value, int decimals) {
    return value ? cell(*value, decimals) : "\u2013";
}

std::string small_cell(double value) {
    if (!std::isfinite(value))
        return cell(value, 0);
    return value != 0 && std::abs(value) < 0.01 ? fmt::format("{:.1e}", value) : postprocess::rounded(value);
}

void RemarkList::add(const std::string& remark, double depth_m) {
    auto& depths = depths_[remark];
    if (depths.empty())
        order_.push_back(remark);
    const std::string depth = fmt::format("{:g}", depth_m);
    if (depths.empty() || depths.back() != depth)
        depths.push_back(depth);
}

std::vector<std::string> RemarkList::texts() const {
    std::vector<std::string> texts;
    for (const auto& remark : order_)
        texts.push_back(fmt::format("At {} m: {}.", fmt::join(depths_.at(remark), ", "), remark));
    return texts;
}

} // namespace interpile::program
