#include "postprocess/surface.h"

#include "io/results_reader.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <cctype>

namespace interpile::postprocess {

cairo_status_t append_bytes(void* text, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void require(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw io::FileTrouble(fmt::format("a figure could not be drawn: {}", cairo_status_to_string(status)));
}

void describe_pdf(cairo_surface_t* surface, const std::string& title, const std::string& created) {
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "interpile " INTERPILE_VERSION);
    const bool dated = created.size() >= 10 && std::isdigit(static_cast<unsigned char>(created[0]));
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   dated ? created.c_str() : "2000-01-01T00:00:00Z");
}

} // namespace interpile::postprocess
