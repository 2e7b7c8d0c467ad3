#pragma once
// Owners and failures of the graphics library, for the files that make surfaces.

#include <cairo.h>

#include <memory>
#include <string>

namespace interpile::postprocess {

struct Release {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Surface = std::unique_ptr<cairo_surface_t, Release>;
using Context = std::unique_ptr<cairo_t, Release>;

/// Write function of a surface whose closure is a std::string.
cairo_status_t append_bytes(void* text, const unsigned char* data, unsigned int length);

/// \throws io::FileTrouble
void require(cairo_status_t status);

/// Title, program and date of a PDF. Without a date of ours the library would write the present time.
/// \param created  ISO 8601; anything else counts as no date
void describe_pdf(cairo_surface_t* surface, const std::string& title, const std::string& created);

} // namespace interpile::postprocess
