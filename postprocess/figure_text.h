#pragma once
// Head and foot of figures that bring their own words.

#include "postprocess/page.h"

namespace interpile::postprocess {

/// Title, subtitle, source, warnings and notes of a figure's struct.
template <class Figure>
PageText figure_text(const Figure& figure) {
    PageText text;
    text.title = figure.title;
    text.subtitle = sentence(figure.subtitle);
    text.source = figure.source;
    text.caution = usual_caution; // records and closed forms are not simulated
    text.warnings = figure.warnings;
    for (const auto& note : figure.notes)
        text.notes.push_back(sentence(note));
    return text;
}

} // namespace interpile::postprocess
