// SPDX-License-Identifier: MIT
#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_Static.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <Quantity_Color.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <STEPConstruct_Styles.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <StepRepr_NextAssemblyUsageOccurrence.hxx>
#include <StepRepr_RepresentationContext.hxx>
#include <StepVisual_Colour.hxx>
#include <StepVisual_MechanicalDesignGeometricPresentationRepresentation.hxx>
#include <StepVisual_PresentationStyleAssignment.hxx>
#include <TCollection_HAsciiString.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp_Explorer.hxx>
#include <XCAFApp_Application.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_WorkSession.hxx>
#include <gp_Trsf.hxx>
#include <mutex>
#include <sstream>

#include "kernel/shapes.h"
#include "model/step_module.h"

namespace bw::kernel {
namespace {

using model::looks;
using model::StepJob;

/// The kernel's settings and application are one for the whole program.
std::mutex kernel_in_use;

void settle_kernel() {
    Message::DefaultMessenger()->ChangePrinters().Clear();  // it would chatter on the console
    STEPCAFControl_Controller::Init();                      // before the settings, which it would put back
    Interface_Static::SetCVal("write.step.schema", "AP214IS");
    Interface_Static::SetCVal("write.step.unit", "MM");
    Interface_Static::SetIVal("write.surfacecurve.mode", 0);
    Interface_Static::SetCVal("write.step.product.name", "plant");
}

void name(const TDF_Label& label, const std::string& text) {
    TDataStd_Name::Set(label, TCollection_ExtendedString(text.c_str(), Standard_True));
}

TopLoc_Location location(const model::Frame& f) {
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
    bw::Result<void> fill(const StepJob& job) {
        const auto tool = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
        std::vector<TDF_Label> part;
        for (const auto& shape : job.scene.shapes) {
            const auto solid = kernel_shape(shape);
            if (!solid) return tl::unexpected(solid.error());
            part.push_back(tool->AddShape(*solid, Standard_False));
            name(part.back(), shape.item);
            solids_.push_back({*solid, shape.look});
        }
        const auto whole = tool->NewShape();
        name(whole, job.title);
        std::vector<TDF_Label> family(looks);
        for (std::size_t i = 0; i < job.placed.size(); ++i) {
            const auto& placed = job.scene.placed[i];
            const auto look = static_cast<std::size_t>(model::index_of(job.placed[i].look));
            auto& group = family[look];
            if (group.IsNull()) {
                group = tool->NewShape();
                name(group, job.family[look]);
            }
            name(tool->AddComponent(group, part[static_cast<std::size_t>(placed.shape)], location(placed.frame)),
                 job.placed[i].name);
        }
        for (std::size_t i = 0; i < looks; ++i)
            if (!family[i].IsNull()) name(tool->AddComponent(whole, family[i], {}), job.family[i]);
        tool->UpdateAssemblies();
        return {};
    }

    bw::Result<std::string> text(const StepJob& job) {
        STEPCAFControl_Writer writer;
        writer.SetColorMode(Standard_False);  // its order follows memory: see `paint`
        writer.SetLayerMode(Standard_False);
        writer.SetPropsMode(Standard_False);
        if (!writer.Transfer(document_, STEPControl_AsIs))
            return fail("the CAD kernel could not turn the plant into STEP", {});
        const auto session = writer.ChangeWriter().WS();
        const auto model = writer.ChangeWriter().Model();
        paint(session, model);
        number(model);
        APIHeaderSection_MakeHeader header(model);
        const auto string = [](const std::string& s) { return new TCollection_HAsciiString(s.c_str()); };
        header.SetName(string("plant"));
        header.SetTimeStamp(string(job.time));
        header.SetDescriptionValue(1, string("pieces of a hot-water plant"));
        header.SetAuthorValue(1, string(job.author));
        header.SetOrganizationValue(1, string(""));
        header.SetOriginatingSystem(string("Bankwright"));
        header.SetAuthorisation(string(""));
        StepData_StepWriter out(model);
        out.SendModel(Handle(StepData_Protocol)::DownCast(session->Protocol()));
        std::ostringstream bytes;
        out.Print(bytes);
        return std::move(bytes).str();
    }

private:
    /// A styled item a solid, in the order of the parts.
    void paint(const Handle(XSControl_WorkSession) & session, const Handle(StepData_StepModel) & model) const {
        STEPConstruct_Styles styles(session);
        std::vector<Handle(StepVisual_PresentationStyleAssignment)> ink(looks);
        for (const auto& [shape, look] : solids_) {
            auto& style = ink[static_cast<std::size_t>(model::index_of(look))];
            styles.ClearStyles();
            Handle(StepRepr_RepresentationContext) context;
            for (TopExp_Explorer at(shape, TopAbs_SOLID); at.More(); at.Next()) {
                if (style.IsNull()) {
                    const auto c = model::colour(look);
                    style = styles.MakeColorPSA(
                        {}, STEPConstruct_Styles::EncodeColor({c.r, c.g, c.b, Quantity_TOC_sRGB}), {}, {}, 0);
                }
                styles.AddStyle(at.Current(), style, {});
                if (context.IsNull()) context = styles.FindContext(at.Current());
            }
            Handle(StepVisual_MechanicalDesignGeometricPresentationRepresentation) painted;
            if (styles.CreateMDGPR(context, painted)) model->AddWithRefs(painted);
        }
    }

    /// The kernel numbers placements on through the whole run of the program; here each file begins at one.
    static void number(const Handle(StepData_StepModel) & model) {
        int last = 0;
        for (int i = 1; i <= model->NbEntities(); ++i) {
            const auto use = Handle(StepRepr_NextAssemblyUsageOccurrence)::DownCast(model->Value(i));
            if (!use.IsNull()) use->SetId(new TCollection_HAsciiString(++last));
        }
    }

    std::vector<std::pair<TopoDS_Shape, model::Look>> solids_;
    Handle(XCAFApp_Application) application_;
    Handle(TDocStd_Document) document_;
};

bw::Result<std::string> step(const StepJob& job) {
    const std::lock_guard alone(kernel_in_use);
    settle_kernel();
    Document document;
    if (auto filled = document.fill(job); !filled) return tl::unexpected(filled.error());
    return document.text(job);
}

}  // namespace
}  // namespace bw::kernel

extern "C" __attribute__((visibility("default"))) void bankwright_step(const bw::model::StepJob& job,
                                                                       bw::Result<std::string>& bytes) {
    bytes = bw::kernel::step(job);
}
