#include "io/case_parts.h"
#include "io/key_substitution.h"
#include "io/study_design.h"
#include "io/study_parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <stdexcept>

namespace interpile::io {

namespace {

/// A fault that one or more members share.
struct SharedFault {
    std::string what, mend;
    std::size_t factor = 0; ///< index; none where it equals the count of factors
    std::size_t first = 0;  ///< member, from 1
    std::size_t members = 0;
};

/// Words stand in quotes; truth values, numbers and lists do not.
std::string literal_of(const StudyFactor& factor, const std::string& value) {
    const bool bare = factor.numeric || value == "true" || value == "false" || takes_list(factor.key);
    if (bare)
        return value;
    std::string quoted = "\"";
    for (const char letter : value) {
        if (letter == '"' || letter == '\\')
            quoted += '\\';
        quoted += letter;
    }
    return quoted + '"';
}

class Members {
public:
    Members(const CaseValues& values, const StudyFile& study)
        : values_(values), study_(study), base_text_(read_text_file(study.base)) {}

    std::vector<StudyMember> make() {
        if (study_.design == StudyDesign::Grid)
            place_grid();
        else
            place_sample();
        for (std::size_t k = 0; k < members_.size(); ++k)
            check(k);
        tell();
        return std::move(members_);
    }

private:
    static void add(StudyMember& member, double value) {
        member.values.push_back(fmt::format("{:.12g}", value));
        member.numbers.push_back(value);
    }

    void place_grid() {
        std::vector<std::size_t> counts;
        for (const auto& factor : study_.factors)
            counts.push_back(factor.numeric ? factor.values.size() : factor.words.size());
        for (const auto& choice : grid_design(counts)) {
            StudyMember member;
            for (std::size_t f = 0; f < choice.size(); ++f) {
                const auto& factor = study_.factors[f];
                if (factor.numeric) {
                    add(member, factor.values[choice[f]]);
                } else {
                    member.values.push_back(factor.words[choice[f]]);
                    member.numbers.push_back(std::numeric_limits<double>::quiet_NaN());
                }
            }
            members_.push_back(std::move(member));
        }
    }

    void place_sample() {
        const auto sample =
            latin_hypercube(static_cast<std::size_t>(values_.count("study.members")), study_.factors.size(),
                            static_cast<std::uint32_t>(values_.number("study.seed")));
        for (const auto& shares : sample) {
            StudyMember member;
            for (std::size_t f = 0; f < shares.size(); ++f) {
                const auto& factor = study_.factors[f];
                // Parts of equal size for whole numbers too: the ends are not rarer than the rest.
                const double value =
                    factor.whole
                        ? std::floor(factor.from + shares[f] * (std::floor(factor.to) - factor.from + 1))
                        : factor.from + shares[f] * (factor.to - factor.from);
                add(member, std::stod(fmt::format("{:.6g}", value))); // as many digits as anyone can build
            }
            members_.push_back(std::move(member));
        }
    }

    void check(std::size_t k) {
        StudyMember& member = members_[k];
        std::string text = base_text_;
        for (std::size_t f = 0; f < study_.factors.size(); ++f)
            try {
                text =
                    with_value(text, study_.factors[f].key, literal_of(study_.factors[f], member.values[f]));
            } catch (const std::invalid_argument& error) {
                note(k, f, fmt::format("{} {}", study_.factors[f].key, error.what()), "");
                return;
            }
        member.case_text = std::move(text);
        try {
            const Case checked = parse_case(member.case_text, study_.base);
            if (checked.layout.pattern == mesh::Pattern::Listed && uses_table(checked))
                note(k, study_.factors.size(), "layout.positions_file names another file",
                     "Members stand alone: write the centers as positions_m.");
        } catch (const CaseFaults& faults) {
            for (const Fault& fault : faults.faults())
                note(k, named_factor(fault.what), fault.what, fault.mend);
        }
    }

    static bool uses_table(const Case& checked) {
        return std::any_of(checked.settings.begin(), checked.settings.end(),
                           [](const auto& setting) { return setting.key == "layout.positions_file"; });
    }

    /// The factor whose key a message is about: its path, or the key alone.
    std::size_t named_factor(const std::string& what) const {
        const auto& factors = study_.factors;
        for (std::size_t f = 0; f < factors.size(); ++f)
            if (what.starts_with(factors[f].key))
                return f;
        for (std::size_t f = 0; f < factors.size(); ++f)
            if (what.find(factors[f].key.substr(factors[f].key.rfind('.') + 1)) != std::string::npos)
                return f;
        return factors.size();
    }

    void note(std::size_t k, std::size_t factor, const std::string& what, const std::string& mend) {
        auto [found, is_new] = places_.try_emplace(what, shared_.size());
        if (is_new)
            shared_.push_back({what, mend, factor, k + 1, 0});
        ++shared_[found->second].members;
    }

    void tell() const {
        for (const auto& fault : shared_) {
            const bool of_factor = fault.factor < study_.factors.size();
            std::string who =
                fmt::format("member {} ({})", fault.first, in_words(study_, members_[fault.first - 1]));
            if (fault.members > 1)
                who += fmt::format(" and {} more", fault.members - 1);
            values_.faults().add(
                values_.place(of_factor ? fmt::format("factor[{}].key", fault.factor + 1) : "study.base"),
                fmt::format("{}: {}", who, fault.what), fault.mend);
        }
    }

    const CaseValues& values_;
    const StudyFile& study_;
    std::string base_text_;
    std::vector<StudyMember> members_;
    std::vector<SharedFault> shared_;
    std::map<std::string, std::size_t> places_; // of equal faults
};

} // namespace

std::string in_words(const StudyFile& study, const StudyMember& member) {
    std::vector<std::string> parts;
    for (std::size_t f = 0; f < study.factors.size(); ++f)
        parts.push_back(fmt::format("{} = {}", study.factors[f].key, member.values[f]));
    return fmt::format("{}", fmt::join(parts, ", "));
}

std::vector<StudyMember> make_members(const CaseValues& values, const StudyFile& study) {
    return Members(values, study).make();
}

} // namespace interpile::io
