#!/usr/bin/env python3
"""Read a results file of interpile with h5py and print means of the ground between the piles.

    python3 read_result.py cell.h5

Needs h5py and numpy (Debian: python3-h5py). Units stand in the names of the datasets and in their attribute "unit".
"""

import sys

import h5py
import numpy as np


def cell_areas_m2(nodes_m, cell_nodes):
    """Areas of quadrilaterals (shoelace formula): nodes (node, 2), cell_nodes (cell, 4)."""
    x, y = nodes_m[cell_nodes, 0], nodes_m[cell_nodes, 1]
    return 0.5 * np.abs(np.sum(x * np.roll(y, -1, axis=1) - np.roll(x, -1, axis=1) * y, axis=1))


def main(path):
    # swmr: the file may also be read while the run goes on. A row counts once its stage number is there.
    with h5py.File(path, "r", swmr=True) as result:
        print(result.attrs["title"])
        print(f"soil model {result.attrs['soil_model']}, depth {result.attrs['depth_m']:g} m")
        if not result.attrs["finished"]:
            print("not finished: what is complete so far")
        if result.attrs["monotonic_density"]:
            print("this soil model cannot densify by strokes: densities are no prediction")

        density = result["fields/relative_density_pct"]
        print(f"{density.attrs['long_name']} {density.attrs['symbol']} in {density.attrs['unit']}")
        print("stage  mean D_r of the soil  D_r by the record  heave [%]")
        for stage in range(len(result["stage/number"])):
            # Cells hold soil but for the share that is pile; means are weighted by the area of the soil now.
            areas = cell_areas_m2(result["mesh/moved_m"][stage], result["mesh/cell_nodes"][:])
            soil = areas * (result["fields/pile_share"][stage] < 0.01)
            mean = np.average(density[stage], weights=soil)
            recorded = result["stage/mean_relative_density_pct"][stage]
            heave_pct = 100 * np.expm1(result["stage/heave_strain"][stage])
            mark = "" if result["stage/converged"][stage] else "  NOT CONVERGED"
            print(f"{stage:5d}  {mean:20.2f}  {recorded:17.2f}  {heave_pct:9.3f}{mark}")

        strokes = result["half_strokes"]
        print(f"half strokes: {len(strokes['place_in_order'])}")
        print(f"lateral stress ratio between the piles at the end: {strokes['lateral_stress_ratio'][-1]:.2f}")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: read_result.py RESULT.h5")
    main(sys.argv[1])
