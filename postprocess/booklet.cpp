#include "postprocess/booklet.h"

#include "postprocess/surface.h"

#include <cairo-pdf.h>

namespace interpile::postprocess {

std::string pdf_text(const Booklet& booklet) {
    std::string bytes;
    const Surface surface(
        cairo_pdf_surface_create_for_stream(append_bytes, &bytes, booklet.size_pt.x(), booklet.size_pt.y()));
    describe_pdf(surface.get(), booklet.title, booklet.created);
    for (const auto& draw : booklet.pages) {
        const Context context(cairo_create(surface.get()));
        Canvas canvas(context.get());
        draw(canvas);
        cairo_show_page(context.get());
        require(cairo_status(context.get()));
    }
    int above = CAIRO_PDF_OUTLINE_ROOT;
    for (const auto& mark : booklet.bookmarks) {
        const std::string where = "page=" + std::to_string(mark.page + 1);
        const int entry = cairo_pdf_surface_add_outline(
            surface.get(), mark.below ? above : CAIRO_PDF_OUTLINE_ROOT, mark.name.c_str(), where.c_str(),
            mark.below ? static_cast<cairo_pdf_outline_flags_t>(0) : CAIRO_PDF_OUTLINE_FLAG_OPEN);
        if (!mark.below)
            above = entry;
    }
    cairo_surface_finish(surface.get());
    require(cairo_surface_status(surface.get()));
    return bytes;
}

void with_scratch_canvas(const std::function<void(Canvas&)>& use) {
    const Surface surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR, nullptr));
    const Context context(cairo_create(surface.get()));
    Canvas canvas(context.get());
    use(canvas);
    require(cairo_status(context.get()));
}

} // namespace interpile::postprocess
