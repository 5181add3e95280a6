// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <bit>
#include <cmath>
#include <cstring>
#include <map>

#include "model/mesh.h"
#include "model/model.h"
#include "units/nominal.h"

namespace bw::model {
namespace {

using shape::Vec;
using Text = fmt::memory_buffer;

template <class... T>
void put(Text& text, fmt::format_string<T...> form, T&&... values) {
    fmt::format_to(std::back_inserter(text), form, std::forward<T>(values)...);
}

std::string json_text(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += '\\', out += c;
        else if (static_cast<unsigned char>(c) < 0x20)
            out += fmt::format("\\u{:04x}", static_cast<int>(c));
        else
            out += c;
    }
    return out + '"';
}

/// A number as short as reads back the same after seven digits: coordinates to a tenth of a micrometre.
double plain(double value) {
    const double r = std::round(value * 1e7) / 1e7;
    return r == 0 ? 0 : r;
}

void list_separator(Text& list) {
    if (list.size() > 0) list.push_back(',');
}

/// Turn from a frame's axes to the room's.
std::array<double, 4> quaternion(const Frame& f) {
    const double trace = f.x.x + f.y.y + f.z.z;
    if (trace > 0) {
        const double s = 2 * std::sqrt(1 + trace);
        return {(f.y.z - f.z.y) / s, (f.z.x - f.x.z) / s, (f.x.y - f.y.x) / s, s / 4};
    }
    if (f.x.x > f.y.y && f.x.x > f.z.z) {
        const double s = 2 * std::sqrt(1 + f.x.x - f.y.y - f.z.z);
        return {s / 4, (f.y.x + f.x.y) / s, (f.z.x + f.x.z) / s, (f.y.z - f.z.y) / s};
    }
    if (f.y.y > f.z.z) {
        const double s = 2 * std::sqrt(1 + f.y.y - f.x.x - f.z.z);
        return {(f.y.x + f.x.y) / s, s / 4, (f.z.y + f.y.z) / s, (f.z.x - f.x.z) / s};
    }
    const double s = 2 * std::sqrt(1 + f.z.z - f.x.x - f.y.y);
    return {(f.z.x + f.x.z) / s, (f.z.y + f.y.z) / s, s / 4, (f.x.y - f.y.x) / s};
}

/// Triangles written once and used by every mesh with that geometry.
struct Geometry {
    int position = -1, normal = -1, indices = -1;  ///< accessors
};

class Buffers {
public:
    Geometry add(const Mesh& mesh) {
        std::array<float, 3> low = mesh.vertices.front().at, high = low;
        for (const auto& v : mesh.vertices)
            for (std::size_t i = 0; i < 3; ++i)
                low[i] = std::min(low[i], v.at[i]), high[i] = std::max(high[i], v.at[i]);
        const auto count = mesh.vertices.size();
        const auto start = vertices_.size() * sizeof(Vertex);
        vertices_.insert(vertices_.end(), mesh.vertices.begin(), mesh.vertices.end());
        const int position = accessor(
            0, start, 5126, count, "VEC3",
            fmt::format(R"(,"min":[{},{},{}],"max":[{},{},{}])", low[0], low[1], low[2], high[0], high[1], high[2]));
        const int normal = accessor(0, start + sizeof(Vertex::at), 5126, count, "VEC3", {});
        const int indices =
            accessor(1, indices_.size() * sizeof(std::uint16_t), 5123, mesh.indices.size(), "SCALAR", {});
        indices_.insert(indices_.end(), mesh.indices.begin(), mesh.indices.end());
        return {position, normal, indices};
    }

    /// `accessors`, `bufferViews` and `buffers`.
    void tell(Text& json) const {
        const auto v = vertices_.size() * sizeof(Vertex), i = indices_.size() * sizeof(std::uint16_t);
        put(json,
            R"("accessors":[{}],"bufferViews":[{{"buffer":0,"byteLength":{},"byteStride":{},"target":34962}},)"
            R"({{"buffer":0,"byteOffset":{},"byteLength":{},"target":34963}}],"buffers":[{{"byteLength":{}}}])",
            std::string_view(accessors_.data(), accessors_.size()), v, sizeof(Vertex), v, i, (v + i + 3) / 4 * 4);
    }

    [[nodiscard]] std::string bytes() const {
        static_assert(std::endian::native == std::endian::little && sizeof(Vertex) == 24);
        const auto v = vertices_.size() * sizeof(Vertex), i = indices_.size() * sizeof(std::uint16_t);
        std::string out((v + i + 3) / 4 * 4, '\0');
        std::memcpy(out.data(), vertices_.data(), v);
        std::memcpy(out.data() + v, indices_.data(), i);
        return out;
    }

private:
    int accessor(int view, std::size_t offset, int type, std::size_t count, std::string_view kind,
                 const std::string& more) {
        list_separator(accessors_);
        put(accessors_, R"({{"bufferView":{},"byteOffset":{},"componentType":{},"count":{},"type":"{}"{}}})", view,
            offset, type, count, kind, more);
        return count_++;
    }

    std::vector<Vertex> vertices_;
    std::vector<std::uint16_t> indices_;
    Text accessors_;
    int count_ = 0;
};

/// Single rods and boxes are one mesh of unit size, stretched by the node.
enum class Unit { none, rod, box };

Unit unit_of(const Shape& shape) {
    if (shape.forms.size() != 1) return Unit::none;
    if (std::holds_alternative<shape::Box>(shape.forms[0])) return Unit::box;
    return std::get<Rod>(shape.forms[0]).line.size() == 2 ? Unit::rod : Unit::none;
}

class Meshes {
public:
    explicit Meshes(const Scene& scene) : mesh_(scene.shapes.size(), -1) {
        std::map<std::pair<int, int>, int> of_unit;  // by unit and look
        std::map<int, Geometry> unit_geometry;
        for (std::size_t i = 0; i < scene.shapes.size(); ++i) {
            const auto& shape = scene.shapes[i];
            const Unit unit = unit_of(shape);
            if (unit == Unit::none) {
                mesh_[i] = add(shape.item, buffers.add(mesh(shape.forms)), shape.look);
                continue;
            }
            const int kind = static_cast<int>(unit);
            const auto [known, fresh] = of_unit.try_emplace({kind, index_of(shape.look)}, -1);
            if (fresh) {
                const auto [geometry, unseen] = unit_geometry.try_emplace(kind);
                if (unseen) geometry->second = buffers.add(mesh({unit_form(unit)}));
                known->second = add(unit == Unit::rod ? "rod" : "box", geometry->second, shape.look);
            }
            mesh_[i] = known->second;
        }
    }

    [[nodiscard]] int of(int shape) const { return mesh_[static_cast<std::size_t>(shape)]; }
    [[nodiscard]] std::string_view text() const { return {text_.data(), text_.size()}; }

    Buffers buffers;

private:
    static Form unit_form(Unit unit) {
        if (unit == Unit::box) return shape::Box{{0, 0, 0}, {1, 1, 1}};
        return Rod{{{0, 0, 0}, {0, 0, 1}}, 1};
    }

    int add(std::string_view name, const Geometry& g, Look look) {
        list_separator(text_);
        put(text_,
            R"({{"name":{},"primitives":[{{"attributes":{{"POSITION":{},"NORMAL":{}}},"indices":{},"material":{}}}]}})",
            json_text(name), g.position, g.normal, g.indices, index_of(look));
        return count_++;
    }

    std::vector<int> mesh_;
    Text text_;
    int count_ = 0;
};

void extras(Text& json, const plant::Piece& piece) {
    put(json, R"({{"id":{},"part":"{}","service":"{}","item":{})", json_text(piece.id), text::name(piece.part),
        text::name(piece.service), json_text(piece.item));
    if (piece.size.eighths > 0) put(json, R"(,"size":"{}")", units::print(piece.size));
    if (piece.cut > 0) put(json, R"(,"cut":{})", plain(piece.cut));
    if (piece.mass_dry > 0) put(json, R"(,"mass":{})", plain(piece.mass_dry));
    if (piece.heater > 0) put(json, R"(,"heater":{})", piece.heater);
    if (piece.bank > 0) put(json, R"(,"bank":{})", piece.bank);
    json.push_back('}');
}

Vec stretch(const Shape& shape) {
    switch (unit_of(shape)) {
        case Unit::box: {
            const auto& box = std::get<shape::Box>(shape.forms[0]);
            return box.max - box.min;
        }
        case Unit::rod: {
            const auto& rod = std::get<Rod>(shape.forms[0]);
            return {rod.radius, rod.radius, shape::distance(rod.line[0], rod.line[1])};
        }
        case Unit::none: break;
    }
    return {1, 1, 1};
}

void node(Text& json, const plant::Piece& piece, const Placed& placed, const Shape& shape, int mesh) {
    const Vec at = placed.frame.origin, by = stretch(shape);
    put(json, R"({{"name":{},"mesh":{},"translation":[{},{},{}])", json_text(piece.id), mesh, plain(at.x), plain(at.y),
        plain(at.z));
    const auto q = quaternion(placed.frame);
    if (std::abs(q[3]) < 1 - 1e-12) put(json, R"(,"rotation":[{:.9g},{:.9g},{:.9g},{:.9g}])", q[0], q[1], q[2], q[3]);
    if (by != Vec{1, 1, 1}) put(json, R"(,"scale":[{},{},{}])", plain(by.x), plain(by.y), plain(by.z));
    json.append(std::string_view(R"(,"extras":)"));
    extras(json, piece);
    json.push_back('}');
}

/// Nodes: 0 turns the room's z up into y up and holds heaters and services, which hold their pieces.
void nodes(Text& json, const plant::Plant& plant, const Scene& scene, const Meshes& meshes) {
    std::array<Text, looks> children;
    Text pieces;
    int next = 1 + looks;
    for (const auto& placed : scene.placed) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(placed.piece)];
        list_separator(pieces);
        node(pieces, piece, placed, scene.shapes[static_cast<std::size_t>(placed.shape)], meshes.of(placed.shape));
        auto& family = children[static_cast<std::size_t>(index_of(look_of(piece)))];
        list_separator(family);
        put(family, "{}", next++);
    }
    Text present, groups;
    for (int s = 0; s < looks; ++s) {
        const auto& family = children[static_cast<std::size_t>(s)];
        list_separator(groups);
        put(groups, R"({{"name":"{}")", name(look_at(s)));
        if (family.size() > 0) put(groups, R"(,"children":[{}])", std::string_view(family.data(), family.size()));
        groups.push_back('}');
        list_separator(present);
        put(present, "{}", 1 + s);
    }
    put(json,
        R"("nodes":[{{"name":"plant","rotation":[-0.7071067811865476,0,0,0.7071067811865476],"children":[{}]}},{},{}])",
        std::string_view(present.data(), present.size()), std::string_view(groups.data(), groups.size()),
        std::string_view(pieces.data(), pieces.size()));
}

double linear(double srgb) { return srgb <= 0.04045 ? srgb / 12.92 : std::pow((srgb + 0.055) / 1.055, 2.4); }

void materials(Text& json) {
    json.append(std::string_view(R"("materials":[)"));
    for (int i = 0; i < looks; ++i) {
        const auto c = colour(look_at(i));
        put(json,
            R"({}{{"name":"{}","pbrMetallicRoughness":{{"baseColorFactor":[{:.6g},{:.6g},{:.6g},1],)"
            R"("metallicFactor":0,"roughnessFactor":0.6}}}})",
            i > 0 ? "," : "", name(look_at(i)), linear(c.r), linear(c.g), linear(c.b));
    }
    json.push_back(']');
}

void chunk(std::string& file, std::uint32_t kind, std::string_view bytes, char filler) {
    const auto padded = static_cast<std::uint32_t>((bytes.size() + 3) / 4 * 4);
    for (const std::uint32_t word : {padded, kind}) file.append(reinterpret_cast<const char*>(&word), 4);
    file.append(bytes).append(padded - bytes.size(), filler);
}

}  // namespace

bw::Result<std::string> gltf(const design::Result& result) {
    if (!result.chosen) return fail("nothing was chosen", "a survey whose plant fits");
    const auto& plant = result.chosen->built.plant;
    const Scene all = scene(plant);
    const Meshes meshes(all);
    Text json;
    put(json,
        R"({{"asset":{{"version":"2.0","generator":"Bankwright"}},"scene":0,"scenes":[{{"name":{},"nodes":[0]}}],)",
        json_text(result.survey.job));
    nodes(json, plant, all, meshes);
    put(json, R"(,"meshes":[{}],)", meshes.text());
    materials(json);
    json.push_back(',');
    meshes.buffers.tell(json);
    json.push_back('}');

    const auto binary = meshes.buffers.bytes();
    std::string file = "glTF";
    const auto whole = static_cast<std::uint32_t>(12 + 16 + (json.size() + 3) / 4 * 4 + binary.size());
    for (const std::uint32_t word : {std::uint32_t{2}, whole}) file.append(reinterpret_cast<const char*>(&word), 4);
    chunk(file, 0x4E4F534A, {json.data(), json.size()}, ' ');
    chunk(file, 0x004E4942, binary, '\0');
    return file;
}

}  // namespace bw::model
