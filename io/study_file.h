#pragma once
// A study: one case with other values of some keys, as read from a TOML file.

#include "io/case_file.h"
#include "solver/design_methods/blow_count_chart.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace interpile::io {

enum class StudyDesign { Grid, Sample };

/// A key of the case that the members differ in.
struct StudyFactor {
    std::string key;                ///< "layout.spacing_m"
    bool numeric = true;            ///< false: words
    bool whole = false;             ///< takes whole numbers
    std::vector<double> values;     ///< grid and numeric
    std::vector<std::string> words; ///< grid and not numeric, as they stand in the study file
    double from = 0, to = 0;        ///< sample only
};

/// One case of a study.
struct StudyMember {
    std::vector<std::string> values; ///< by factor, as written into the case, words without quotes
    std::vector<double> numbers;     ///< the same; not a number where it is a word
    std::string case_text;
};

/// How the simulated blow counts are compared with those of the simple methods.
struct ComparisonPlan {
    bool compare = false; ///< [validation] stands in the file and asks for it
    double fines_pct = 0;
    std::vector<double> other_fines_pct; ///< compared with, too
    double alpha = 1;                    ///< of method D
    bool limits_of_case = true;          ///< e_max, e_min of the case, else by Hirama
    double agreement_pct = 10;
    std::optional<solver::BlowCountChart> chart; ///< of method A
};

struct StudyFile {
    std::filesystem::path file; ///< as given
    std::string title;
    std::filesystem::path base; ///< case file
    StudyDesign design = StudyDesign::Grid;
    std::vector<StudyFactor> factors;
    std::vector<StudyMember> members; ///< every one is a sound case
    bool keep_results = true;
    bool over_replacement_ratio = false; ///< curves over a_s instead of the spacing
    ComparisonPlan comparison;
    std::vector<SettingInForce> settings; ///< every value, in the order of the vocabulary
};

/// Name of a file of a member without ending: "0007", counted from 1.
std::string member_name(std::size_t number);

/// "layout.spacing_m = 1.7, ground.relative_density_pct = 40"
std::string in_words(const StudyFile& study, const StudyMember& member);

/// Read and check a study file, its case with the values of every member, and its chart.
/// \throws CaseFaults  with every fault found, those of members with the line of their factor (exit code 2)
/// \throws FileTrouble if one of the files cannot be read (exit code 3)
StudyFile read_study(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
StudyFile parse_study(const std::string& text, const std::filesystem::path& file);

} // namespace interpile::io
