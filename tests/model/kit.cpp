// SPDX-License-Identifier: MIT
#include "kit.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

namespace bw::test {
namespace {

namespace fs = std::filesystem;

std::string text_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace

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

Json read_by(const std::string& reader, const std::string& bytes, const std::string& name) {
    const fs::path readers = fs::path(BANKWRIGHT_SOURCE) / "tests/readers";
    EXPECT_TRUE(fs::exists(readers / "node_modules"))
        << "the readers are missing: run ./test, or npm ci in " << readers;
    const auto folder = fs::temp_directory_path() / ("bankwright-model-" + std::to_string(::getpid()));
    fs::create_directories(folder);
    const auto file = folder / name, out = folder / "told.json", err = folder / "said.txt";
    std::ofstream(file, std::ios::binary) << bytes;
    const int status = std::system(("node '" + (readers / (reader + ".mjs")).string() + "' '" + file.string() + "' >'" +
                                    out.string() + "' 2>'" + err.string() + "'")
                                       .c_str());
    const auto told = text_of(out), said = text_of(err);
    fs::remove_all(folder);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << reader << " stopped: " << said;
    EXPECT_EQ(said, "") << reader;
    return Json::parse(told);
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
