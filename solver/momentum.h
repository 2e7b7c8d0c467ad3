#pragma once
// Balance of momentum of the slice: from a trial motion to out-of-balance forces.

#include "mesh/grid.h"
#include "solver/kinematics.h"
#include "solver/pile_growth.h"
#include "solver/pore_water.h"
#include "solver/slice.h"
#include "solver/soil_model.h"
#include "solver/supports.h"

#include <Eigen/Core>

#include <array>
#include <cmath>
#include <vector>

namespace interpile::solver {

/// A trial increment on top of the last kept state.
struct Trial {
    Eigen::VectorXd displacement; ///< per freedom of Supports [m]
    double heave = 0;             ///< logarithmic vertical strain, heave (lengthening) positive
    Eigen::VectorXd growth;       ///< per active disc: increment of ln g
};

/// What a trial leaves unbalanced: total stresses. Inside the balance tension is positive, as in the textbooks; the
/// soil's stresses and the pore pressure (compression positive) change sign on the way in.
struct Imbalance {
    Eigen::VectorXd force;     ///< per freedom [kN/m]: internal minus external
    double vertical = 0;       ///< area integral of (sigma_z + overburden), tension positive [kN]
    Eigen::VectorXd disc_area; ///< per active disc: area now [m2]
    double worst = 0;          ///< largest |force| over the sum of |force parts| at its node [-]
    int worst_node = 0;
    double vertical_ratio = 0;      ///< |vertical| over the area integral of |sigma_z| [-]
    double vertical_stress_kPa = 0; ///< mean sigma_v', compression positive
};

/// What Momentum keeps from one increment to the next, discs aside.
struct KeptSlice {
    Eigen::Matrix2Xd node_m; ///< 2 x nodes, current positions
    SoilState soil;
    double heave = 0;              ///< logarithmic, heave positive
    Eigen::ArrayXd finished_share; ///< per cell, see Momentum::set_finished_share()
    Eigen::ArrayXd smear_share;    ///< likewise, see Momentum::add_smear()
    KeptWater water;
};

/// Geometry, stress and density of the slice at the last kept state, and the forces of a trial on top of it.
class Momentum {
public:
    Momentum(const mesh::Grid& grid, const mesh::Domain& domain, const Slice& slice, const SoilModel& soil,
             const Water& water = {});

    const mesh::Grid& initial() const { return initial_; }
    const mesh::Grid& current() const { return current_; } ///< node positions at the last kept state
    const SoilState& soil_state() const { return kept_; }
    const Supports& supports() const { return supports_; }
    const SoilModel& soil() const { return soil_; }
    const Slice& slice() const { return slice_; }
    double heave() const {
        return heave_;
    } ///< logarithmic, in the heaving region since the start, heave positive
    /// 1 for cells that take part in the heave, 0 for those held at no vertical strain.
    const Eigen::ArrayXd& heaving() const { return heaving_; }
    void set_active(std::vector<PileDisc*> discs);
    const std::vector<PileDisc*>& active() const { return active_; }

    const PoreWater& pore_water() const { return pore_water_; }
    /// The flow of the increments to come: matrix at the kept state for increments of this duration.
    void set_duration(double duration_s);
    /// What the flow is taken in now.
    FlowState flow_state() const;
    /// Share of each cell that is a finished pile, for its drainage.
    void set_finished_share(Eigen::ArrayXd share) { finished_share_ = std::move(share); }

    /// Share of the ground of each cell that is smeared, besides what was before; it moves with the ground.
    void add_smear(const Eigen::ArrayXd& share) { smear_share_ = 1 - (1 - smear_share_) * (1 - share); }

    KeptSlice kept() const {
        return {current_.node_m, kept_, heave_, finished_share_, smear_share_, pore_water_.kept()};
    }
    /// Go on from there; set_active(), set_duration() and set_hourglass() must come before the next increment.
    /// \throws std::invalid_argument if it is of another grid or soil model
    void restore(const KeptSlice& kept);

    /// How many threads share the work on the cells. The answer is the same to the last digit.
    void set_threads(int threads) { threads_ = threads; }

    /// Resistance against hourglass motion per unit of shear modulus, proportional to c (a/h) / (increment
    /// of ln a): a viscosity, kept for one increment only and never accumulated.
    void set_hourglass(double factor_m);
    struct Hourglass {
        double stiffness = 0;          ///< k_h [kPa]; force = k_h q gamma
        std::array<double, 4> pattern; ///< gamma
    };
    /// Of a cell at the last kept geometry.
    Hourglass hourglass(int cell) const;

    /// Forces of a trial. The trial soil state is kept aside until keep(). A trial that turns a cell inside
    /// out has no forces: worst is then not a number.
    /// \throws std::runtime_error from the soil model
    void evaluate(const Trial& trial, Imbalance& imbalance);
    /// Make the last evaluated trial the new kept state.
    void keep(const Trial& trial);

    /// Area of a disc at the last kept state [m2], and mean in-plane effective stress of its cells [kPa], compression
    /// positive.
    double disc_area(const PileDisc& disc) const;
    double disc_pressure(const PileDisc& disc) const;
    /// Mean excess pore pressure of its cells [kPa].
    double disc_excess_pressure(const PileDisc& disc) const;

    /// Diagonals of a cell from nodal positions, or their change from nodal displacements.
    Diagonals diagonals(const Eigen::Matrix2Xd& node, int cell) const {
        const auto n = initial_.cell_nodes(cell);
        return {node(0, n[2]) - node(0, n[0]), node(1, n[2]) - node(1, n[0]), node(0, n[3]) - node(0, n[1]),
                node(1, n[3]) - node(1, n[1])};
    }
    /// Thickness of a cell now over its initial thickness [-].
    double thickness(int cell) const { return std::exp(heave_ * heaving_(cell)); }
    double cell_area(int cell) const { return 0.5 * diagonals(current_.node_m, cell).twice_area(); }

private:
    bool measure_motion(const Trial& trial, int row); ///< false if a cell has turned inside out
    bool update_soil(const Trial& trial);             ///< motion and stress of every cell; false likewise
    void update_pressure();
    void add_cell_forces(int row, double overburden, struct VerticalSums& sums);
    void set_growth_strain(const Trial& trial);
    void add_side_forces();
    /// Mean of a value per cell over a disc, by area.
    template <class Value>
    double disc_mean(const PileDisc& disc, const Value& value) const;
    void find_worst(Imbalance& imbalance) const;

    mesh::Grid initial_, current_;
    mesh::Domain domain_;
    Slice slice_;
    const SoilModel& soil_;
    Supports supports_;
    SoilState kept_, trial_;
    PoreWater pore_water_;
    Eigen::ArrayXd finished_share_, smear_share_;
    Eigen::ArrayXd heaving_;
    double heave_ = 0;
    double hourglass_ = 0;
    int threads_ = 1;
    std::vector<PileDisc*> active_;

    // Work arrays of evaluate().
    Motion motion_;
    Eigen::ArrayXd growth_strain_; ///< per cell, in-plane logarithmic growth of one direction
    Eigen::Matrix2Xd displacement_, node_, force_;
    Eigen::ArrayXd force_sum_;
    std::vector<Hourglass> hourglass_cell_; ///< empty: to be computed for the kept geometry
};

/// Anti-symmetric node pattern of a quadrilateral, orthogonal to every linear field, quarter scaled:
/// gamma = (h - (h.x) b_x - (h.y) b_y)/4. Source: from memory of Flanagan & Belytschko (1981), IJNME 17,
/// 679-706.
std::array<double, 4> hourglass_pattern(const std::array<mesh::Vec2, 4>& corner);

} // namespace interpile::solver
