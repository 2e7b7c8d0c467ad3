#include "io/program/commands.h"
#include "io/vocabulary.h"

#include <algorithm>

namespace interpile::program {

namespace {

void tell_keys(const std::vector<io::KeyInfo>& keys, const io::Dictionary& dictionary, std::string_view model,
               Answer& answer) {
    for (const auto& info : keys)
        answer.row("keys", {{"table", io::header_of(info.table, dictionary)},
                            {"key", std::string(info.key)},
                            {"unit", std::string(io::unit_of(info.key))},
                            {"soil_model", std::string(model)},
                            {"required", info.presence == io::Presence::Required},
                            {"default", info.standard},
                            {"allowed", io::allowed_values(info)},
                            {"meaning", std::string(info.meaning)},
                            {"source", std::string(info.source)}});
}

bool chooses_soil(const io::Dictionary& dictionary) {
    return std::any_of(dictionary.keys.begin(), dictionary.keys.end(),
                       [](const io::KeyInfo& info) { return info.table == "soil" && info.key == "model"; });
}

} // namespace

io::ExitCode help_keys(const io::Dictionary& dictionary, Answer& answer) {
    answer.say("{}", io::vocabulary_help(dictionary));
    tell_keys(dictionary.keys, dictionary, "", answer);
    if (chooses_soil(dictionary))
        for (const auto& model : io::soil_model_names())
            for (const auto& keys : {io::soil_rule_keys(model), io::soil_keys(model)})
                tell_keys(keys, dictionary, model, answer);
    return io::Done;
}

} // namespace interpile::program
