#include "solver/soil_models/template.h"

#include <catch2/catch.hpp>

using namespace interpile::solver;

TEST_CASE("the template model is a whole soil model: trials are forgotten, history advances when kept") {
    const TemplateModel soil(8000, 0.3);
    SoilState start;
    start.resize(1, soil.history_size());
    soil.initialize(start);
    SoilState end = start;
    Motion motion = Motion::Zero(1, MotionColumns);
    motion(0, RotationCos) = 1;
    motion(0, StrainXX) = 1e-3;
    motion(0, StrainYY) = -1e-3;
    soil.update(motion, start, end, 0, 1); // a trial ...
    soil.update(motion, start, end, 0, 1); // ... and another of the same increment
    CHECK(end.history(0, 0) == Approx(2e-3));
    CHECK(end.stress(0, 0) == Approx(2 * 8000 * 1e-3)); // Hooke, no volume change
    CHECK(end.stress(0, 1) == Approx(-2 * 8000 * 1e-3));
}
