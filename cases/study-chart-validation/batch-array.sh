#!/bin/bash
# The study as an array of 12 batch jobs on a folder that all machines see. The lines #SBATCH are those of Slurm; another
# queue wants its own, and the name of its variable below. Once, after all jobs:
#   interpile study study.toml -o chart --collect
#SBATCH --array=1-12
#SBATCH --ntasks=1
#SBATCH --cpus-per-task=1
#SBATCH --time=01:00:00
set -eu
shares=12 # as many as the array has jobs
interpile study "${STUDY:-study.toml}" -o "${FOLDER:-chart}" --share "$SLURM_ARRAY_TASK_ID/$shares"
