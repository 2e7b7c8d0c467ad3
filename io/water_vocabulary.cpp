// Keys of [water] and [schedule] of a case.

#include "io/water_vocabulary.h"

#include "io/key_rows.h"

namespace interpile::io {

using enum ValueType;

// clang-format off: one key per entry is easier to read in rows of equal form
std::vector<KeyInfo> water_and_schedule() {
    return {
        word("water", "drainage", "drained", {"drained", "undrained", "coupled"},
             "drained: no excess pore pressure; undrained: no flow; coupled: flow in time by [schedule]",
             "own choice: the quickest; sand is drained only where the work is slow"),
        conditional("water", "permeability_m_s", Number, {1e-10, 1},
                    "horizontal, at the void ratio before treatment, which it follows (Kozeny-Carman); "
                    "needed when coupled"),
        derived("water", "vertical_permeability_m_s", Number, "permeability_m_s", {1e-10, 1},
                "vertical, for leak_length_m", own),
        standard("water", "saturation", Number, "1", {0.5, 1},
                 "degree of saturation S_r; gas makes the water compressible",
                 "saturated, the stiffest water; between 0.8 and 1 near piles placed with air (published "
                 "field records)"),
        derived("water", "static_pressure_kPa", Number,
                "from the water table, else slice_depth_m times 9.81 kN/m3", {0, 5000},
                "hydrostatic, above the pressure of the air: compresses the gas", own),
        word("water", "sides", "open", {"open", "closed"},
             "sides that are no lines of symmetry: open, no excess pressure there; closed, no flow across",
             "own choice: the ground goes on"),
        standard("water", "leak_length_m", Number, "0", {0, 100},
                 "distance to a drained boundary above or below, towards which the slice leaks as the first "
                 "mode of a "
                 "layer; 0: no leak; a simplification of the plan view",
                 "own choice: off"),
        standard("water", "pile_permeability_m_s", Number, "1e-4", {0, 1},
                 "of finished piles, horizontal and along the pile; 0: they are ground like the rest",
                 "common practice, no source: clean medium sand, compacted"),
        derived("water", "pile_leak_length_m", Number, "slice_depth_m", {0, 100},
                "along a finished pile to where it drains, with the well resistance of its first mode; 0: it "
                "does not",
                "own choice: to the ground surface"),
        standard("water", "smear_diameter_ratio", Number, "1", {1, 5},
                 "of the ring that making a pile smears around it, over the pile's; it acts once the pile "
                 "drains; 1: "
                 "no ring",
                 "own choice: off; ring of Barron 1948 and Hansbo 1981, from memory"),
        conditional("water", "smear_permeability_ratio", Number, {1e-3, 1},
                    "permeability of that ring over that of the ground there; needed with a ring"),

        standard("schedule", "penetration_speed_m_min", Number, "2", {0.01, 60},
                 "first driving of the casing", practice),
        standard("schedule", "withdrawal_speed_m_min", Number, "4", {0.01, 60}, "of the casing", practice),
        standard("schedule", "redrive_speed_m_min", Number, "2", {0.01, 60}, "of the casing", practice),
        conditional("schedule", "pile_length_m", Number, {0.1, 100},
                    "with pile.withdrawal_m and redrive_m it gives pile_min"),
        derived("schedule", "stroke_s", Number, "withdrawal_m and redrive_m over their speeds", {0.01, 1e7},
                "one withdrawal and re-drive; needed where pile.strokes is given directly", own),
        derived("schedule", "casing_pass_s", Number, "diameter_m over penetration_speed_m_min", {0.01, 1e7},
                "time in which the casing, or a pile without strokes, passes the depth of the slice", own),
        derived("schedule", "pile_min", Number, "pile_length_m by the strokes that make it", {1e-3, 1e6},
                "a whole pile; needed when coupled, unless it follows", own),
        standard("schedule", "between_min", Number, "10", {0, 1e6},
                 "from the end of a pile to the next: move and rest", practice),
        standard("schedule", "work_h_per_day", Number, "0", {0, 24},
                 "a pile that does not fit waits for the next day; 0: no breaks", "own choice"),
        standard("schedule", "work_days_per_week", Count, "7", {1, 7},
                 "with work_h_per_day: the days from Monday on", "own choice: no weekend"),
        KeyInfo{"schedule",
                "begins",
                DateTime,
                Presence::Conditional,
                {},
                1950,
                2200,
                {},
                "when the first pile is begun, on the clock of the site; gives dates to the results",
                "no default; without it the first day counts as a Monday"},
        standard(
            "schedule", "rigs", Count, "1", {1, 20},
            "at work side by side; the slice takes one pile after the other in the order of their begin, "
            "also where their passes of the slice overlap",
            "own choice"),
        derived(
            "schedule", "rig_offset_min", Number, "pile_min and between_min over the number of rigs",
            {0, 1e6},
            "each rig begins so much after the one before it; 0: their piles are driven together, stroke by "
            "stroke",
            "own choice: evenly in turn"),
        conditional(
            "schedule", "rig_of_pile", Counts, {1, 20},
            "number of the rig for each pile, by number of the pile; without it, or a column rig in the "
            "table of positions, the piles go to the rigs in turn, in the order of work",
            "no default; rigs count from 1"),
        standard("schedule", "final_rest_h", Number, "0", {0, 1e6}, "after the last pile", own),
        standard("schedule", "largest_step_min", Number, "0", {0, 1e6},
                 "largest time step of a rest; 0: no limit", own),
    };
}
// clang-format on

} // namespace interpile::io
