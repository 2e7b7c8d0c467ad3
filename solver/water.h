#pragma once
// The water in the ground and in the piles, as the user gives it.

namespace interpile::solver {

/// Drained: no excess pressure at any time. Undrained: no flow. Coupled: flow in time.
enum class Drainage { Drained, Undrained, Coupled };

/// Water and how it moves. Pressures are excess over hydrostatic, compression positive.
struct Water {
    Drainage drainage = Drainage::Drained;
    double permeability_m_s = 1e-5;          ///< k_h at the initial void ratio, > 0
    double vertical_permeability_m_s = 1e-5; ///< k_v, > 0; only of the vertical leak
    double saturation = 1;                   ///< S_r, 0 .. 1
    double static_pressure_kPa = 0;          ///< hydrostatic, gauge; compresses the gas in the pores
    bool open_sides =
        false; ///< no excess pressure at sides that are no lines of symmetry; else no flow across them
    /// Distance to a drained boundary above or below; 0: none. The slice leaks as the first mode of a layer drained
    /// there decays: dp/dt = -(pi^2/4) k_v/(gamma_w m_v H^2) p. A simplification of the plan view.
    double leak_length_m = 0;
    double pile_permeability_m_s = 0; ///< of finished piles; 0: they are no drains
    double pile_leak_length_m = 0;    ///< along a pile to where it drains, as leak_length_m; 0: none
    double smear_diameter_ratio = 1;  ///< d_s/d_w of the smeared ring around a finished pile, >= 1; 1: none
    double smear_permeability_ratio = 1; ///< k_s/k_h of that ring, 0 .. 1, above 0
    double initial_excess_kPa = 0;       ///< before the first pile, everywhere
};

} // namespace interpile::solver
