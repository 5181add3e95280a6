// SPDX-License-Identifier: MIT
#include "kit.h"

#include <map>

namespace bw::test {
const catalogue::Catalogue& demo_catalogue() {
    static const auto loaded = catalogue::load().value();
    return loaded;
}

const design::Result& designed(const std::string& example) {
    static std::map<std::string, design::Result> known;
    if (auto at = known.find(example); at != known.end()) return at->second;
    const auto survey = survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + example + ".toml");
    return known.emplace(example, design::run(survey.value(), demo_catalogue()).value()).first->second;
}

shape::Box bounds_of(const plant::Piece& piece) {
    auto all = shape::bounds(piece.solids.front());
    for (const auto& solid : piece.solids) all = shape::joined(all, shape::bounds(solid));
    return all;
}

double volume_of(const plant::Piece& piece) {
    double sum = 0;
    for (const auto& solid : piece.solids) sum += shape::volume(solid);
    return sum;
}

std::vector<const plant::Piece*> own_pieces(const plant::Plant& plant) {
    std::vector<const plant::Piece*> all;
    for (const auto& piece : plant.pieces)
        if (piece.part != text::Part::connection) all.push_back(&piece);
    return all;
}

void expect_same_bounds(const Json& read, const plant::Piece& piece, double tolerance) {
    const auto box = bounds_of(piece);
    const double low[] = {box.min.x, box.min.y, box.min.z}, high[] = {box.max.x, box.max.y, box.max.z};
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(read["low"][i].get<double>(), low[i], tolerance) << piece.id;
        EXPECT_NEAR(read["high"][i].get<double>(), high[i], tolerance) << piece.id;
    }
}

}  // namespace bw::test
