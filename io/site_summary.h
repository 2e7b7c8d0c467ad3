#pragma once
// The design of a site in words, for the terminal.

#include "io/site_tables.h"

namespace interpile::io {

/// Boring by boring: ground, severity by procedure, where procedures disagree, spacing by method; what is out of reach
/// says the largest blow count and which limit ends it. The borings that ask for most stand at the end.
std::string site_summary(const SiteFile& site, const std::vector<solver::BoringDesign>& designs);

/// "F_L 1 by boulanger-idriss-2014", "N 15".
std::string target_text(const solver::TreatmentAims& aims);

/// One sentence on what the design does not hold; under every table and figure of a site.
std::string design_caution();

} // namespace interpile::io
