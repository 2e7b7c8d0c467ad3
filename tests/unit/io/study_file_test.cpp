// Study files: what a sound one means, and what is said about slips.

#include "io/study_file.h"
#include "io/value_reader.h"
#include "io/vocabulary.h"
#include "tests/support/case_text.h"
#include "tests/support/places.h"
#include "tests/support/study_text.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

using namespace interpile;
using namespace interpile::testing;
using Catch::Contains;

namespace {

/// A study beside its case.
class Study {
public:
    explicit Study(const std::string& case_text = cell_case) { folder_.write("case.toml", case_text); }
    const WorkingFolder& folder() const { return folder_; }

    io::StudyFile read(const std::string& text) const {
        return io::parse_study(text, folder_.path() / "study.toml");
    }
    std::string faults(const std::string& text) const {
        try {
            read(text);
        } catch (const io::CaseFaults& faults) {
            return faults.what();
        }
        return "nothing";
    }
    /// With another second factor.
    std::string faults_of_factor(const std::string& keys) const {
        return faults(cell_study.substr(0, cell_study.rfind("key = ")) + keys);
    }

private:
    WorkingFolder folder_;
};

const std::string sample_study =
    "[study]\nbase = \"case.toml\"\ndesign = \"sample\"\nmembers = 40\nseed = 3\n"
    "[[factor]]\nkey = \"layout.spacing_m\"\nfrom = 1.4\nto = 2.4\n"
    "[[factor]]\nkey = \"pile.strokes\"\nfrom = 1\nto = 4\n";

} // namespace

TEST_CASE("a grid of two factors becomes cases with their values", "[study]") {
    const Study study;
    const auto file = study.read(cell_study);
    CHECK(file.title == "four members");
    CHECK(file.keep_results);
    CHECK_FALSE(file.comparison.compare);
    REQUIRE(file.members.size() == 4);
    CHECK(file.members[1].values == std::vector<std::string>{"1.6", "60"});
    CHECK(file.members[2].numbers == std::vector<double>{2.0, 40});
    CHECK(in_words(file, file.members[2]) == "layout.spacing_m = 2, ground.relative_density_pct = 40");
    const auto member = io::parse_case(file.members[3].case_text, "case.toml");
    CHECK(member.layout.spacing_m == 2.0);
    CHECK(member.slice.relative_density_pct(member.slice.void_ratio) == Approx(60));
    CHECK_THAT(file.members[3].case_text, Contains("# below ground"));
    CHECK(io::member_name(7) == "0007");
    CHECK(io::member_name(10000) == "10000");
}

TEST_CASE("even steps include both ends and print as they are meant", "[study]") {
    const Study study;
    const auto file =
        study.read(changed(cell_study, "from = 40\nto = 60\ncount = 2", "from = 30.3\nto = 30.9\ncount = 7"));
    std::vector<std::string> values;
    for (std::size_t k = 0; k < 7; ++k)
        values.push_back(file.members[k].values[1]);
    CHECK(values == std::vector<std::string>{"30.3", "30.4", "30.5", "30.6", "30.7", "30.8", "30.9"});
}

TEST_CASE("words and truth values are factors of a grid", "[study]") {
    const Study study;
    const auto file =
        study.read(cell_study + "[[factor]]\nkey = \"domain.part\"\nwords = [\"quarter\", \"whole\"]\n"
                                "[[factor]]\nkey = \"output.every_pile\"\nwords = [\"true\", \"false\"]\n");
    REQUIRE(file.members.size() == 16);
    CHECK(file.members[2].values == std::vector<std::string>{"1.6", "40", "whole", "true"});
    CHECK(std::isnan(file.members[2].numbers[2]));
    CHECK(io::parse_case(file.members[2].case_text, "c.toml").output.every_pile);
    CHECK_FALSE(io::parse_case(file.members[3].case_text, "c.toml").output.every_pile);
}

TEST_CASE("orders of work and positions are lists, written as in a case", "[study]") {
    const auto group = changed(changed(changed(cell_case, "rows = 1\ncolumns = 1", "rows = 1\ncolumns = 3"),
                                       "kind = \"together\"", "kind = \"listed\"\nsequence = [1, 2, 3]"),
                               "shape = \"pattern-cell\"\npart = \"quarter\"", "margin_m = 2");
    const Study study(group);
    const std::string head = "[study]\nbase = \"case.toml\"\n[[factor]]\nkey = \"order.sequence\"\n";
    const auto file = study.read(head + "words = [\"[1, 2, 3]\", \"[2, 1, 3]\"]\n");
    REQUIRE(file.members.size() == 2);
    CHECK(file.members[1].values[0] == "[2, 1, 3]");
    const auto order = [&](std::size_t k) {
        return io::parse_case(file.members[k].case_text, "c.toml").plan.order;
    };
    CHECK(order(0) == std::vector<std::vector<int>>{{0}, {1}, {2}});
    CHECK(order(1) == std::vector<std::vector<int>>{{1}, {0}, {2}});
    CHECK_THAT(study.faults(head + "words = [\"[1, 2]\"]\n"), Contains("study.toml:4:"));
    CHECK_THAT(study.faults(head + "words = [\"[1, 2\"]\n"), Contains("cannot be set"));
    CHECK_THAT(study.faults(head + "values = [1, 2]\n"), Contains("Use words = [\"[1, 2]\", ...]"));
}

TEST_CASE("a sample keeps its ranges, whole numbers stay whole, and it repeats", "[study]") {
    const Study study;
    const auto file = study.read(sample_study);
    REQUIRE(file.members.size() == 40);
    std::multiset<double> strokes;
    for (const auto& member : file.members) {
        CHECK(member.numbers[0] >= 1.4);
        CHECK(member.numbers[0] <= 2.4);
        strokes.insert(member.numbers[1]);
        CHECK(io::parse_case(member.case_text, "c.toml").plan.strokes.strokes == member.numbers[1]);
    }
    for (const double count : {1, 2, 3, 4}) // 40 parts of the range: each number has ten
        CHECK(strokes.count(count) == 10);
    const auto values = [&](const std::string& text) { return study.read(text).members[11].values; };
    CHECK(values(sample_study) == file.members[11].values);
    CHECK(values(changed(sample_study, "seed = 3", "seed = 4")) != file.members[11].values);
}

TEST_CASE("the comparison is made where [validation] stands", "[study]") {
    const Study study;
    const auto plan = study.read(cell_study + "[validation]\nfines_pct = 5\nlimits = \"fines\"\n").comparison;
    CHECK(plan.compare);
    CHECK(plan.fines_pct == 5);
    CHECK_FALSE(plan.limits_of_case);
    CHECK(plan.agreement_pct == 10);
    CHECK_FALSE(study.read(cell_study + "[validation]\ncompare = false\n").comparison.compare);
    study.folder().write("chart.csv",
                         "blow_count_before,replacement_ratio,blow_count_after\n5,0.1,10\n10,0.1,14\n");
    CHECK(study.read(cell_study + "[validation]\nchart = \"chart.csv\"\n").comparison.chart);
    CHECK_THROWS_AS(study.read(cell_study + "[validation]\nchart = \"none.csv\"\n"), io::FileTrouble);
}

TEST_CASE("slips of a factor are told with their line", "[study]") {
    const Study study;
    CHECK_THAT(study.faults_of_factor("key = \"layout.spacing\"\nvalues = [1]\n"),
               Contains("study.toml:8:") &&
                   Contains("is no key of a case file; nearest: \"layout.spacing_m\""));
    CHECK_THAT(study.faults_of_factor("key = \"zzz\"\nvalues = [1]\n"), Contains("help-case"));
    CHECK_THAT(study.faults_of_factor("values = [1]\n"), Contains("\"key\" is missing"));
    CHECK_THAT(study.faults_of_factor("key = \"domain.x_m\"\nvalues = [1]\n"),
               Contains("does not go with domain.x_m, a list"));
    CHECK_THAT(study.faults_of_factor("key = \"layout.positions_file\"\nwords = [\"a\"]\n"),
               Contains("names a file"));
    CHECK_THAT(study.faults_of_factor("key = \"layout.spacing_m\"\nvalues = [1.7]\n"),
               Contains("is a factor already"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\n"),
               Contains("needs values, or from, to and count"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nvalues = []\n"), Contains("is not a list"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nvalues = [0.5, 0.5]\n"),
               Contains("has a value twice"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nvalues = [0.5]\ncount = 3\n"),
               Contains("is given beside values"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nfrom = 0.5\nto = 0.6\n"),
               Contains("\"count\" is missing"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nfrom = 0.5\nto = 0.5\ncount = 2\n"),
               Contains("equals from"));
    CHECK_THAT(study.faults_of_factor("key = \"ground.K0\"\nwords = [\"a\"]\n"), Contains("Use values"));
    CHECK_THAT(study.faults_of_factor("key = \"layout.pattern\"\nvalues = [1]\n"), Contains("Use words"));
    CHECK_THAT(study.faults_of_factor("key = \"layout.pattern\"\nwords = []\n"), Contains("factor[2].words"));
    CHECK_THAT(study.faults_of_factor("key = \"layout.pattern\"\n"), Contains("\"words\" is missing"));
    CHECK_THAT(study.faults_of_factor("key = \"pile.strokes\"\nvalues = [1, 1.5]\n"),
               Contains("gives 1.5, and pile.strokes takes whole"));
    CHECK_THAT(study.faults_of_factor("key = \"pile.strokes\"\nfrom = 1\nto = 2\ncount = 3\n"),
               Contains("whole numbers"));
    CHECK_THAT(study.faults_of_factor("key = \"layer[1].thickness_m\"\nvalues = [1]\n"),
               Contains("study.toml:8:") && Contains("number 1, which the case does not have"));
}

TEST_CASE("slips of a study are told", "[study]") {
    const Study study;
    CHECK_THAT(study.faults("[study]\nbase = \"case.toml\"\n"), Contains("no [[factor]] is given"));
    CHECK_THAT(study.faults(changed(cell_study, "base = \"case.toml\"\n", "")),
               Contains("\"base\" is missing"));
    CHECK_THAT(study.faults(changed(cell_study, "[study]", "[study]\nseed = 2")),
               Contains("has no effect with design = \"grid\""));
    CHECK_THAT(study.faults(changed(cell_study, "[study]", "[study]\nmembers = 2")),
               Contains("has no effect"));
    CHECK_THAT(study.faults(changed(cell_study, "count = 2", "count = 5001")),
               Contains("the grid has 10002 members") && Contains("At most 10000"));
    CHECK_THAT(study.faults(changed(sample_study, "members = 40\n", "")), Contains("\"members\" is missing"));
    CHECK_THAT(study.faults(changed(sample_study, "members = 40", "members = 10001")),
               Contains("outside 1 .. 10000"));
    CHECK_THAT(study.faults(changed(sample_study, "from = 1.4\n", "values = [1.5]\n")),
               Contains("A sample takes from and to"));
    CHECK_THAT(study.faults(changed(sample_study, "from = 1.4\n", "")), Contains("\"from\" is missing"));
    CHECK_THAT(study.faults(changed(sample_study, "from = 1.4", "from = 2.4")),
               Contains("is not above from"));
    CHECK_THAT(study.faults(changed(sample_study, "layout.spacing_m", "layout.pattern")),
               Contains("takes a word"));
    CHECK_THROWS_AS(study.read(changed(cell_study, "case.toml", "none.toml")), io::FileTrouble);
}

TEST_CASE("a member that is no sound case is told once, with the line of its factor", "[study]") {
    const Study study;
    // Two members with piles that overlap, both at the first spacing.
    const auto said = study.faults(changed(cell_study, "[1.6, 2.0]", "[0.3, 2.0]"));
    CHECK_THAT(
        said,
        Contains("study.toml:5:") &&
            Contains("member 1 (layout.spacing_m = 0.3, ground.relative_density_pct = 40) and 1 more: "));
    CHECK_THAT(said, !Contains("member 2 ("));
    // Out of the range of the key.
    CHECK_THAT(study.faults(changed(cell_study, "to = 60", "to = 160")),
               Contains("study.toml:8:") &&
                   Contains("member 2 (layout.spacing_m = 1.6, ground.relative_density_pct = 160)"));
    // A fault of the case itself, at the line of the base.
    const Study broken(changed(cell_case, "friction_angle_deg = 33", "friction_angle_deg = 3300"));
    CHECK_THAT(broken.faults(cell_study),
               Contains("study.toml:3:") && Contains("and 3 more: soil.friction_angle_deg = 3300"));
}

TEST_CASE("a case that needs another file is refused", "[study]") {
    auto text = changed(cell_case, "pattern = \"square\"\nspacing_m = 1.6\nrows = 1\ncolumns = 1",
                        "pattern = \"listed\"\npositions_file = \"p.csv\"");
    text = changed(text, "shape = \"pattern-cell\"\npart = \"quarter\"", "margin_m = 2");
    const Study study(text);
    study.folder().write("p.csv", "x_m,y_m\n0,0\n2,0\n");
    CHECK_THAT(
        study.faults("[study]\nbase = \"case.toml\"\n[[factor]]\nkey = \"pile.strokes\"\nvalues = [1, 2]\n"),
        Contains("Members stand alone"));
}

TEST_CASE("every key of a study file is unique, explained, and its default lies in its range", "[study]") {
    std::set<std::string> seen;
    for (const auto& info : io::study_dictionary().keys) {
        INFO(info.key);
        CHECK(seen.insert(std::string(info.table) + "." + std::string(info.key)).second);
        CHECK_FALSE(info.meaning.empty());
        CHECK_FALSE(info.source.empty());
        CHECK(info.low <= info.high);
        CHECK((info.type == io::ValueType::Word) == !info.choices.empty());
        if (info.presence == io::Presence::Default)
            CHECK_NOTHROW(io::default_value(info));
    }
    const auto tables = io::table_names(io::study_dictionary());
    CHECK(std::set<std::string>(tables.begin(), tables.end()).size() == tables.size());
}

TEST_CASE("the studies that come with the program are sound", "[study]") {
    const std::string cases = source_folder() + "/cases/";
    CHECK(io::read_study(cases + "study-spacing-small/study.toml").members.size() == 15);
    const auto chart = io::read_study(cases + "study-chart-validation/study.toml");
    CHECK(chart.members.size() == 140);
    CHECK(chart.comparison.compare);
}
