#pragma once
// A site: borings, earthquake, treatment and target, as read from a TOML file and the tables it names.

#include "io/case_file.h"
#include "io/diagnostics.h"
#include "solver/site/after_treatment.h"

#include <filesystem>
#include <string>
#include <vector>

namespace interpile::io {

/// Which boring the cases are made for.
enum class DesignBy { Worst, Each, Mean };

struct SiteFile {
    std::string title;
    std::vector<solver::Boring> borings; ///< at least one
    DesignBy design_by = DesignBy::Worst;
    solver::Earthquake quake; ///< 0: not given
    solver::TreatmentAims aims;
    double casing_diameter_m = 0.4;
    std::size_t spacing_by = 0; ///< index of aims.methods
    solver::RelationChoice relations;
    std::vector<solver::AfterMeasurement> after; ///< tests between the piles; empty without [after]
    std::vector<std::filesystem::path> files;    ///< read: the site file, then its tables
    std::vector<SettingInForce> settings;        ///< every value, in the order of the vocabulary
};

/// Read and check a site file and its tables.
/// \throws CaseFaults  with every fault found in any of them (exit code 2)
/// \throws FileTrouble if one cannot be read (exit code 3)
SiteFile read_site(const std::filesystem::path& file);

/// The same from text; `file` is used in messages and to resolve relative paths.
SiteFile parse_site(const std::string& text, const std::filesystem::path& file);

/// A name as part of a file name: "BH 1/a" is "bh-1-a"; letters beyond ASCII stay.
std::string file_word(const std::string& name);

} // namespace interpile::io
