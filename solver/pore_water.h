#pragma once
// Water in the pores of the slice: how much the skeleton squeezes out, how much is stored, how much flows.

#include "mesh/domain.h"
#include "mesh/grid.h"
#include "solver/pore_flow.h"
#include "solver/water.h"

#include <Eigen/Core>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include <vector>

namespace interpile::solver {

/// 1/K_f [1/kPa] of pore water with gas: S_r/K_w + (1 - S_r)/p_abs, K_w 2.2e6 kPa, p_abs = 101.3 kPa + static pressure.
/// Source: from memory of Verruijt, Soil mechanics, and Bishop & Eldin (1950): gas as an ideal gas at constant
/// temperature, no solution, no surface tension.
/// \throws std::invalid_argument  S_r not in (0, 1]; static pressure below 0
double water_compressibility_1_kPa(double saturation, double static_pressure_kPa);

/// Kozeny-Carman: k(e)/k(e0) = [e^3/(1 + e)]/[e0^3/(1 + e0)].
/// Source: from memory of Carman (1939), form in void ratio.
double permeability_factor(double void_ratio, double initial_void_ratio);

/// Permeability [m/s] of ground of which a share is smeared, the two in series as radial flow meets them:
/// 1/k = (1 - share)/k_h + share/k_s.
/// Source of the ring of constant permeability: Barron (1948), Trans. ASCE 113, and Hansbo (1981), 10th ICSMFE, as quoted
/// in Can. Geotech. J. 37 (2000); the series within a cell that the ring fills in part is an own choice.
/// \param permeability_ratio  k_s/k_h
double smeared_permeability(double permeability_m_s, double share, double permeability_ratio);

/// The state of the slice that the flow of one increment is taken in: the last kept one.
struct FlowState {
    const mesh::Grid& grid;     ///< current positions
    Eigen::ArrayXd volume_m3_m; ///< per cell: area times thickness over its initial thickness
    Eigen::ArrayXd void_ratio;
    Eigen::ArrayXd shear_modulus_kPa;
    Eigen::ArrayXd finished_share;   ///< of each cell, finished piles that drain; 0 .. 1
    Eigen::ArrayXd smear_share = {}; ///< of the ground of each cell, smeared by them; 0 .. 1; empty: nowhere
};

/// What has become of the water squeezed out of the pores since the start [m3/m].
struct WaterBalance {
    double squeezed = 0; ///< loss of pore volume
    double stored = 0;   ///< by compression of the water
    double through_sides = 0;
    double leaked = 0;
    double closing_error() const { return squeezed - stored - through_sides - leaked; }
};

/// What PoreWater keeps from one increment to the next.
struct KeptWater {
    Eigen::ArrayXd pressure_kPa; ///< per cell
    double time_s = 0;
    WaterBalance balance;
};

/// One pressure per cell, backward Euler; flow between cells as solver/pore_flow.h.
/// Pressures of one-point cells may take a checkerboard pattern where little water flows. A flux between neighbors in
/// proportion to the jump of the pressure increment, beta h^2/(2 G), damps it, vanishes with the cell size and keeps the
/// water. Source: local jump stabilization, from memory of Silvester & Kechkar (1990), Comput. Methods Appl. Mech. Eng.
/// 79, in the form for increments in time.
/// Water carries no tension: where its absolute pressure would fall below zero the pores take in gas, whose pressure hardly
/// falls on (cavitation, of vapor and of air coming out of solution; a stiffness of 50 kPa keeps the balance solvable).
class PoreWater {
public:
    /// \param initial_void_ratio  per cell
    PoreWater(const mesh::Domain& domain, const Water& water, Eigen::ArrayXd initial_void_ratio);

    const Water& water() const { return water_; }
    bool has_pressure() const { return water_.drainage != Drainage::Drained; }

    /// Matrix of the increments to come: S + stabilization + dt (fluxes); factored.
    /// \param duration_s  of one increment, >= 0; without effect undrained
    void set_step(const FlowState& state, double duration_s);
    double duration_s() const { return duration_s_; }

    /// Trial pressure at the end of an increment.
    /// \param squeezed_m3_m  per cell, loss of pore volume in the increment
    void evaluate(const Eigen::ArrayXd& squeezed_m3_m);
    const Eigen::ArrayXd& trial_pressure_kPa() const { return trial_; }
    const Eigen::ArrayXd& pressure_kPa() const { return kept_; } ///< at the last kept state
    void keep();

    /// Excess pressure of absolute zero [kPa], negative.
    double cavitation_pressure_kPa() const { return cavitation_; }

    /// Lower triangle of the matrix, volume per pressure [m3/(m kPa)].
    const Eigen::SparseMatrix<double>& matrix() const { return matrix_; }

    /// Largest over smallest diagonal entry of the matrix: about 16 less its decimal logarithm digits of a pressure hold.
    double contrast() const { return contrast_; }

    double time_s() const { return time_s_; }
    const WaterBalance& balance() const { return balance_; }

    KeptWater kept() const { return {kept_, time_s_, balance_}; }
    /// Go on from there; set_step() must come before the next increment.
    void restore(const KeptWater& kept);

    /// Specific discharge per cell [m/s] at the kept pressures, 2 x cells: mean of its corners, exact for uniform flow.
    Eigen::Matrix2Xd discharge_m_s(const FlowState& state) const;
    /// k_h per cell [m/s].
    Eigen::ArrayXd permeability_m_s(const FlowState& state) const;

private:
    struct Face {
        int cell, neighbor;
        double jump; ///< stabilization [m3/(m kPa)]
    };
    std::vector<Face> faces_of(const FlowState& state) const;
    std::vector<FlowQuad> flow_of(const FlowState& state) const;
    Eigen::ArrayXd leakage(const FlowState& state) const; ///< per cell [m3/(m s kPa)]
    void assemble(const FlowState& state);
    void factor();
    /// Cells that hold gas at a pressure.
    Eigen::Array<bool, Eigen::Dynamic, 1> hollow(const Eigen::ArrayXd& pressure_kPa) const {
        return pressure_kPa < cavitation_;
    }
    /// Volume taken up by compression of the water since it began to cavitate, per cell [m3/m]; negative below.
    Eigen::ArrayXd stored(const Eigen::ArrayXd& pressure_kPa) const;
    /// Per cell, to neighbors and through open sides [m3/(m s)].
    Eigen::ArrayXd outflow(const Eigen::ArrayXd& pressure_kPa) const;

    mesh::Domain domain_;
    Water water_;
    Eigen::ArrayXd initial_void_ratio_;
    double compressibility_, cavitation_;
    Eigen::ArrayXd kept_, trial_, squeezed_, leak_;
    Eigen::ArrayXd storage_, hollow_storage_; ///< of water alone and with gas beside it
    Eigen::Array<bool, Eigen::Dynamic, 1>
        factored_hollow_;              ///< for which cells the matrix holds hollow_storage_
    Eigen::SparseMatrix<double> flow_; ///< lower triangle, outflow by pressures [m3/(m s kPa)]
    Eigen::ArrayXd through_sides_;     ///< outflow through open sides by the pressure of each cell, likewise
    Eigen::SparseMatrix<double> matrix_;
    Eigen::SimplicialLLT<Eigen::SparseMatrix<double>, Eigen::Lower> cholesky_;
    bool analyzed_ = false;
    double duration_s_ = 0, time_s_ = 0, contrast_ = 1;
    WaterBalance balance_;
};

} // namespace interpile::solver
