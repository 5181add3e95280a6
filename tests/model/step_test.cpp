// SPDX-License-Identifier: MIT
// The STEP file read back by the CAD kernel: names, colours, solids, volumes, places.
#include <unistd.h>
#include <BRepBndLib.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp_Explorer.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>

#include "kit.h"
#include "model/form.h"

namespace bw::test {
namespace {

constexpr double mm = 1000;

struct Read {
    int solids = 0;
    double volume = 0;  // m3
    shape::Box box;
    bool sound = false, coloured = false;
    Quantity_Color colour;
    std::string family;
};

std::string name_of(const TDF_Label& label) {
    Handle(TDataStd_Name) name;
    if (!label.FindAttribute(TDataStd_Name::GetID(), name)) return {};
    std::string out(static_cast<std::size_t>(name->Get().LengthOfCString()), '\0');
    auto* to = out.data();
    name->Get().ToUTF8CString(to);
    return out;
}

class StepFile {
public:
    explicit StepFile(const std::string& bytes) : application_(XCAFApp_Application::GetApplication()) {
        Message::DefaultMessenger()->ChangePrinters().Clear();
        application_->NewDocument("MDTV-XCAF", document_);
        const auto file =
            std::filesystem::temp_directory_path() / ("bankwright-" + std::to_string(::getpid()) + ".step");
        std::ofstream(file, std::ios::binary) << bytes;
        STEPCAFControl_Reader reader;
        EXPECT_EQ(reader.ReadFile(file.c_str()), IFSelect_RetDone);
        EXPECT_TRUE(reader.Transfer(document_));
        std::filesystem::remove(file);
        shapes_ = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
        colours_ = XCAFDoc_DocumentTool::ColorTool(document_->Main());
        TDF_LabelSequence roots;
        shapes_->GetFreeShapes(roots);
        EXPECT_EQ(roots.Length(), 1) << "one plant";
        root = name_of(roots.First());
        TDF_LabelSequence families;
        XCAFDoc_ShapeTool::GetComponents(roots.First(), families);
        for (const auto& family : families) pieces_of(family);
    }
    ~StepFile() { application_->Close(document_); }

    std::string root;
    std::map<std::string, Read> pieces;

private:
    void pieces_of(const TDF_Label& family) {
        TDF_Label group;
        ASSERT_TRUE(XCAFDoc_ShapeTool::GetReferredShape(family, group));
        TDF_LabelSequence components;
        XCAFDoc_ShapeTool::GetComponents(group, components);
        for (const auto& component : components) {
            TDF_Label part;
            ASSERT_TRUE(XCAFDoc_ShapeTool::GetReferredShape(component, part));
            auto read = measured(XCAFDoc_ShapeTool::GetShape(component));
            for (TopExp_Explorer at(XCAFDoc_ShapeTool::GetShape(part), TopAbs_SOLID); at.More(); at.Next())
                read.coloured = colours_->GetColor(at.Current(), XCAFDoc_ColorSurf, read.colour) ||
                                colours_->GetColor(part, XCAFDoc_ColorSurf, read.colour);
            read.family = name_of(group);
            EXPECT_TRUE(pieces.emplace(name_of(component), read).second) << name_of(component) << " twice";
        }
    }

    static Read measured(const TopoDS_Shape& shape) {
        Read read;
        for (TopExp_Explorer at(shape, TopAbs_SOLID); at.More(); at.Next()) {
            ++read.solids;
            GProp_GProps properties;
            BRepGProp::VolumeProperties(at.Current(), properties);
            read.volume += properties.Mass() / (mm * mm * mm);
        }
        read.sound = BRepCheck_Analyzer(shape).IsValid();
        Bnd_Box box;
        BRepBndLib::AddOptimal(shape, box, Standard_False, Standard_False);
        double x0, y0, z0, x1, y1, z1;
        box.Get(x0, y0, z0, x1, y1, z1);
        read.box = {{x0 / mm, y0 / mm, z0 / mm}, {x1 / mm, y1 / mm, z1 / mm}};
        return read;
    }

    Handle(XCAFApp_Application) application_;
    Handle(TDocStd_Document) document_;
    Handle(XCAFDoc_ShapeTool) shapes_;
    Handle(XCAFDoc_ColorTool) colours_;
};

class Step : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Step, ::testing::ValuesIn(example_names));

TEST_P(Step, ReadsBackAsThePlant) {
    const auto& result = designed(GetParam());
    const auto& plant = plant_of(GetParam());
    const StepFile file(model::step(result).value());
    EXPECT_EQ(file.root, result.survey.job);
    double whole = 0, wanted = 0;
    for (const auto* piece : own_pieces(plant)) {
        const auto at = file.pieces.find(piece->id);
        ASSERT_EQ(at != file.pieces.end(), !piece->solids.empty()) << piece->id;
        if (piece->solids.empty()) continue;
        const auto& read = at->second;
        EXPECT_EQ(static_cast<std::size_t>(read.solids), model::forms(piece->solids).size()) << piece->id;
        EXPECT_NEAR(read.volume, volume_of(*piece), 1e-6 * volume_of(*piece)) << piece->id;
        EXPECT_TRUE(read.sound) << piece->id;
        const auto box = bounds_of(*piece);
        EXPECT_LT(shape::distance(read.box.min, box.min), 1e-4) << piece->id;
        EXPECT_LT(shape::distance(read.box.max, box.max), 1e-4) << piece->id;
        const auto look = model::look_of(*piece);
        EXPECT_EQ(read.family, model::name(look)) << piece->id;
        ASSERT_TRUE(read.coloured) << piece->id;
        const auto c = model::colour(look);
        EXPECT_TRUE(read.colour.IsEqual(Quantity_Color(c.r, c.g, c.b, Quantity_TOC_sRGB))) << piece->id;
        whole += read.volume, wanted += volume_of(*piece);
    }
    EXPECT_NEAR(whole, wanted, 1e-6 * wanted);
}

TEST(StepText, TitlesOfAnyKindReadBack) {
    auto result = designed("wash-house");
    result.survey.job =
        "A title of more than seventy-two columns, with O'Neil's \\ \"bath\", caf\xC3\xA9 and \xE6\xB9\xAF in it";
    const auto bytes = model::step(result).value();
    EXPECT_TRUE(std::all_of(bytes.begin(), bytes.end(), [](char c) { return c == '\n' || (c >= 0x20 && c < 0x7F); }));
    EXPECT_EQ(StepFile(bytes).root, result.survey.job);
}

/// The kernel's order of entities may follow memory: the statements without their numbers, sorted.
std::vector<std::string> statements(const std::string& step) {
    std::vector<std::string> out(1);
    bool number = false;
    for (const char c : step) {
        if (c == '\n' || c == ' ') continue;
        if (number && c >= '0' && c <= '9') continue;
        number = c == '#';
        if (c == ';')
            out.emplace_back();
        else
            out.back() += c;
    }
    std::ranges::sort(out);
    return out;
}

TEST_P(Step, IsTheSameTwiceAndSilent) {
    ::testing::internal::CaptureStdout();
    ::testing::internal::CaptureStderr();
    const auto one = model::step(designed(GetParam())).value(), two = model::step(designed(GetParam())).value();
    EXPECT_EQ(::testing::internal::GetCapturedStdout(), "");
    EXPECT_EQ(::testing::internal::GetCapturedStderr(), "");
    EXPECT_GT(one.size(), 100000u);
    EXPECT_TRUE(statements(one) == statements(two)) << "other statements the second time";
}

}  // namespace
}  // namespace bw::test
