#include "io/study_file.h"

#include "io/case_parts.h"
#include "io/chart_table.h"
#include "io/study_parts.h"

#include <fmt/format.h>

#include <set>

namespace interpile::io {

namespace {

class StudyReader {
public:
    StudyReader(CaseValues& values, const std::filesystem::path& file) : values_(values) {
        study_.file = file;
    }

    StudyFile read() {
        values_.derive("study.title", study_.file.stem().string());
        if (values_.has("study.title"))
            study_.title = values_.text("study.title");
        if (values_.has("study.keep_results"))
            study_.keep_results = values_.flag("study.keep_results");
        if (values_.has("figures.over"))
            study_.over_replacement_ratio = values_.text("figures.over") == "replacement-ratio";
        if (values_.has("study.base"))
            study_.base = study_.file.parent_path() / values_.text("study.base");
        read_design();
        read_factors();
        read_comparison();
        values_.faults().throw_if_any();
        study_.members = make_members(values_, study_);
        values_.faults().throw_if_any();
        study_.settings = values_.settings();
        return std::move(study_);
    }

private:
    void read_design() {
        if (!values_.has("study.design"))
            return;
        if (values_.text("study.design") == "sample") {
            study_.design = StudyDesign::Sample;
            if (!values_.given("study.members"))
                values_.missing("study.members", "a sample needs it");
            return;
        }
        for (const char* key : {"study.members", "study.seed"})
            values_.no_effect(key, "with design = \"grid\"");
    }

    void read_factors() {
        const int count = values_.repeated_count("factor");
        if (count == 0)
            values_.faults().add(values_.place("study.base"), "no [[factor]] is given",
                                 "A study needs at least one: [[factor]] with key and values.");
        std::set<std::string> keys;
        double members = 1;
        for (int n = 1; n <= count; ++n) {
            study_.factors.push_back(read_factor(values_, n, study_.design));
            const auto& factor = study_.factors.back();
            if (!factor.key.empty() && !keys.insert(factor.key).second)
                values_.fault(fmt::format("factor[{}].key", n), "is a factor already", "Keep one of them.");
            members *= static_cast<double>(factor.numeric ? factor.values.size() : factor.words.size());
        }
        if (study_.design == StudyDesign::Grid && members > most_study_members)
            values_.faults().add(
                values_.place("study.base"), fmt::format("the grid has {:.0f} members", members),
                fmt::format("At most {} are run: fewer values, or design = \"sample\".", most_study_members));
    }

    void read_comparison() {
        auto& plan = study_.comparison;
        const auto number = [&](const char* path, double& target) {
            if (values_.has(path))
                target = values_.number(path);
        };
        number("validation.fines_pct", plan.fines_pct);
        number("validation.alpha", plan.alpha);
        number("validation.agreement_pct", plan.agreement_pct);
        if (values_.has("validation.other_fines_pct"))
            plan.other_fines_pct = values_.numbers("validation.other_fines_pct");
        if (values_.has("validation.limits"))
            plan.limits_of_case = values_.text("validation.limits") == "case";
        if (values_.has("validation.chart"))
            plan.chart = read_chart_table(study_.file.parent_path() / values_.text("validation.chart"),
                                          values_.faults());
        // The place of a key that is not given is that of its table, if the table is there.
        plan.compare = values_.has("validation.compare") && values_.flag("validation.compare") &&
                       values_.place("validation.compare").line > 0;
    }

    CaseValues& values_;
    StudyFile study_;
};

} // namespace

std::string member_name(std::size_t number) {
    return fmt::format("{:04}", number);
}

StudyFile parse_study(const std::string& text, const std::filesystem::path& file) {
    FaultList faults(file.string(), text);
    CaseValues values(faults, study_dictionary());
    return StudyReader(values, file).read();
}

StudyFile read_study(const std::filesystem::path& file) {
    return parse_study(read_text_file(file), file);
}

} // namespace interpile::io
