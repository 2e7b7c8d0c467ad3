"""Whether a text is one answer of `interpile ... --json`: prints "sound" or what is wrong. Usage: json_check.py FILE"""

import json
import re
import sys

MEMBERS = ["program", "command", "exit_code", "status", "results", "files", "warnings", "faults"]
# A number has a unit at the end of its key, or is one of these: counts, ratios, indices, blow counts.
UNITS = re.compile(r"_(m|s|m2|m3|m3_m|pct|kPa|dB|mm|h|deg)$")
WITHOUT = re.compile(r"(^|_)(piles|strokes_per_pile|stage|pile|member|members|tests|points|increments|iterations|factorizations|"
                     r"ratio|factor|index|efficiency|blow_count|deviation|predicted|error|as_ordered|as_recorded|deviating|"
                     r"not_recorded|e_max|e_min)(_before|_after)?$")


def faults_of(key, value, path):
    if isinstance(value, dict):
        return [f for k, v in value.items() for f in faults_of(k, v, f"{path}.{k}")]
    if isinstance(value, list):
        return [f for v in value for f in faults_of(key, v, path)]
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return []
    # value and limit of a weak spot: the unit stands in "quantity" beside them
    known = UNITS.search(key) or WITHOUT.search(key) or re.search(r"weak_spots\.(value|limit)$", path)
    return [] if known else [f"{path} = {value} has no unit"]


def no_constant(word):
    raise ValueError(f"{word} is not JSON")


def main(path):
    with open(path, encoding="utf-8") as file:
        answer = json.load(file, parse_constant=no_constant)
    wrong = [] if list(answer) == MEMBERS else [f"members are {list(answer)}"]
    wrong += faults_of("results", answer["results"], "results")
    for fault in answer["faults"]:
        if list(fault) != ["file", "line", "column", "key", "message", "mend"] or not fault["message"]:
            wrong.append(f"fault {fault}")
    if (answer["exit_code"] == 0) != (answer["status"] == "done"):
        wrong.append("status")
    print("; ".join(wrong) or "sound")


main(sys.argv[1])
