#include "io/program/report_cells.h"

#include "postprocess/label.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cctype>
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
    if (value == 0 || std::abs(value) >= 0.01)
        return postprocess::rounded(value);
    std::string text = fmt::format("{:.1e}", value);
    if (const auto zero = text.find("e-0"); zero != std::string::npos)
        text.erase(zero + 2, 1);
    return text;
}

namespace {

/// A remark with every number replaced by one mark.
std::string without_numbers(const std::string& remark) {
    std::string text;
    for (const char c : remark)
        if (std::isdigit(static_cast<unsigned char>(c)) == 0)
            text += c;
        else if (text.empty() || text.back() != '#')
            text += '#';
    return text;
}

} // namespace

void RemarkList::add(const std::string& remark, double depth_m) {
    const std::string kind = without_numbers(remark);
    const auto [found, is_new] = remarks_.try_emplace(kind, Remark{remark, {}, false});
    if (is_new)
        order_.push_back(kind);
    auto& [first, depths, differ] = found->second;
    differ = differ || first != remark;
    const std::string depth = fmt::format("{:g}", depth_m);
    if (depths.empty() || depths.back() != depth)
        depths.push_back(depth);
}

std::vector<std::string> RemarkList::texts() const {
    std::vector<std::string> texts;
    for (const auto& kind : order_) {
        const auto& [first, depths, differ] = remarks_.at(kind);
        texts.push_back(
            fmt::format("At {} m: {}{}.", fmt::join(depths, ", "), first,
                        differ ? fmt::format(" (numbers of {} m)", depths.front()) : std::string()));
    }
    return texts;
}

} // namespace interpile::program
