// SPDX-License-Identifier: MIT
#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_ColorTool.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_WorkSession.hxx>
#include <gp_Trsf.hxx>
#include <mutex>
#include <sstream>

#include "model/model.h"
#include "model/step_shapes.h"

namespace bw::model {
namespace {

/// The kernel's settings and application are one for the whole program.
std::mutex kernel;

void settle_kernel() {
    Message::DefaultMessenger()->ChangePrinters().Clear();  // it would chatter on the console
    Interface_Static::SetCVal("write.step.schema", "AP214IS");
    Interface_Static::SetCVal("write.step.unit", "MM");
    Interface_Static::SetIVal("write.surfacecurve.mode", 0);
    Interface_Static::SetCVal("write.step.product.name", "plant");
}

void name(const TDF_Label& label, const std::string& text) {
    TDataStd_Name::Set(label, TCollection_ExtendedString(text.c_str(), Standard_True));
}

TopLoc_Location location(const Frame& f) {
    constexpr double mm = 1000;
    gp_Trsf move;
    move.SetValues(f.x.x, f.y.x, f.z.x, mm * f.origin.x, f.x.y, f.y.y, f.z.y, mm * f.origin.y, f.x.z, f.y.z, f.z.z,
                   mm * f.origin.z);
    return {move};
}

/// A document that is closed again, or the kernel keeps it.
class Document {
public:
    Document() : application_(XCAFApp_Application::GetApplication()) {
        application_->NewDocument("MDTV-XCAF", document_);
    }
    ~Document() { application_->Close(document_); }
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;

    /// Plant, services, pieces; shapes are parts of their own.
    bw::Result<void> fill(const design::Result& result, const Scene& scene) {
        const auto tool = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
        const auto colours = XCAFDoc_DocumentTool::ColorTool(document_->Main());
        std::vector<TDF_Label> part;
        for (const auto& shape : scene.shapes) {
            const auto solid = kernel_shape(shape);
            if (!solid) return tl::unexpected(solid.error());
            part.push_back(tool->AddShape(*solid, Standard_False));
            name(part.back(), shape.item);
            const auto c = colour(shape.look);
            colours->SetColor(part.back(), Quantity_Color(c.r, c.g, c.b, Quantity_TOC_sRGB), XCAFDoc_ColorSurf);
        }
        const auto whole = tool->NewShape();
        name(whole, result.survey.job);
        std::vector<TDF_Label> family(looks);
        for (const auto& placed : scene.placed) {
            const auto& piece = result.chosen->built.plant.pieces[static_cast<std::size_t>(placed.piece)];
            const auto look = look_of(piece);
            auto& group = family[static_cast<std::size_t>(index_of(look))];
            if (group.IsNull()) {
                group = tool->NewShape();
                name(group, std::string(model::name(look)));
            }
            name(tool->AddComponent(group, part[static_cast<std::size_t>(placed.shape)], location(placed.frame)),
                 piece.id);
        }
        for (int i = 0; i < looks; ++i) {
            const auto& group = family[static_cast<std::size_t>(i)];
            if (!group.IsNull()) name(tool->AddComponent(whole, group, {}), std::string(model::name(look_at(i))));
        }
        tool->UpdateAssemblies();
        return {};
    }

    bw::Result<std::string> text(const survey::Survey& survey) {
        STEPCAFControl_Writer writer;
        writer.SetLayerMode(Standard_False);
        writer.SetPropsMode(Standard_False);
        if (!writer.Transfer(document_, STEPControl_AsIs))
            return fail("the CAD kernel could not turn the plant into STEP", {});
        const auto session = writer.ChangeWriter().WS();
        const auto model = writer.ChangeWriter().Model();
        APIHeaderSection_MakeHeader header(model);
        const auto string = [](const std::string& s) { return new TCollection_HAsciiString(s.c_str()); };
        header.SetName(string("plant"));
        header.SetTimeStamp(string(survey.date));
        header.SetOriginatingSystem(string("Bankwright"));
        header.SetAuthorisation(string(""));
        StepData_StepWriter out(model);
        out.SendModel(Handle(StepData_Protocol)::DownCast(session->Protocol()));
        std::ostringstream bytes;
        out.Print(bytes);
        return bytes.str();
    }

private:
    Handle(XCAFApp_Application) application_;
    Handle(TDocStd_Document) document_;
};

}  // namespace

bw::Result<std::string> step(const design::Result& result) {
    if (!result.chosen) return fail("nothing was chosen", "a survey whose plant fits");
    const std::lock_guard alone(kernel);
    settle_kernel();
    Document document;
    if (auto filled = document.fill(result, scene(result.chosen->built.plant)); !filled)
        return tl::unexpected(filled.error());
    return document.text(result.survey);
}

}  // namespace bw::model
