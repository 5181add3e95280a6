// SPDX-License-Identifier: MIT
#include "draw/signs.h"

#include <algorithm>
#include <numbers>

namespace bw::draw {
namespace {

using text::Part;

class Sign {
public:
    Sign(Canvas& canvas, const Spot& spot, Colour colour)
        : canvas_(canvas), spot_(spot), pen_{.width = 0.8, .colour = colour} {}

    /// Takes the line away where the sign stands.
    void clear(double half) { canvas_.line(spot_(-half, 0), spot_(half, 0), {.width = 2.2, .colour = white}); }
    void line(double a, double b, double c, double d) { canvas_.line(spot_(a, b), spot_(c, d), pen_); }
    void shape(const std::vector<At>& local, bool filled = false) {
        std::vector<At> points;
        for (const auto& p : local) points.push_back(spot_(p.x, p.y));
        canvas_.polygon(points, pen_, filled ? pen_.colour : white);
    }
    void circle(double along, double across, double radius, bool filled = false) {
        canvas_.circle(spot_(along, across), radius, pen_, filled ? pen_.colour : white);
    }
    void letter(double along, double across, const std::string& text, double size = 6) {
        const At p = spot_(along, across);
        canvas_.text({p.x, p.y - size * 0.62}, text,
                     {.size = size, .bold = true, .colour = pen_.colour, .anchor = Anchor::centre});
    }
    void bow_tie(bool half_filled = false) {
        clear(6);
        shape({{-6, -4}, {0, 0}, {-6, 4}}, half_filled);
        shape({{6, -4}, {0, 0}, {6, 4}});
    }
    void dome(double across) {
        line(0, 0, 0, -across);
        shape({{-4, -across}, {-3.4, -across - 2.6}, {0, -across - 4}, {3.4, -across - 2.6}, {4, -across}});
    }
    void wave() {
        clear(7);
        std::vector<At> points;
        for (int i = 0; i <= 28; ++i) {
            const double x = -7 + i * 0.5;
            points.push_back(spot_(x, 2.6 * std::sin(x * std::numbers::pi / 3.5)));
        }
        canvas_.polyline(points, pen_);
    }
    Canvas& canvas_;
    const Spot& spot_;
    Pen pen_;
};

void instrument(Sign& s, const std::string& letter) {
    s.line(0, 0, 0, -5);
    s.circle(0, -9.5, 4.5);
    s.letter(0, -9.5, letter, 5);
}

void relief(Sign& s) {
    s.shape({{-4, 6}, {0, 0}, {4, 6}});
    s.shape({{6, -4}, {0, 0}, {6, 4}});
    for (int i = 0; i < 3; ++i) s.line(-3, -3.0 - 2 * i, 3, -4.0 - 2 * i);
    s.line(0, 0, 0, -9);
}

bool valves(Sign& s, Part part) {
    switch (part) {
        case Part::ball_valve: s.bow_tie(), s.circle(0, 0, 2.2); return true;
        case Part::gas_valve: s.bow_tie(), s.line(0, 0, 0, -6), s.line(-3, -6, 3, -6); return true;
        case Part::service_valve_cold:
        case Part::service_valve_hot:
            s.bow_tie(), s.circle(0, 0, 2.2), s.line(0, -2.2, 0, -7), s.line(-2, -7, 2, -7);
            return true;
        case Part::check_valve: s.bow_tie(true); return true;
        case Part::balancing_valve: s.bow_tie(), s.line(-5, 6, 5, -6), s.line(5, -6, 1.8, -4.6); return true;
        case Part::mixing_valve: s.bow_tie(), s.shape({{-4, 6}, {0, 0}, {4, 6}}); return true;
        case Part::regulator:
        case Part::pressure_reducer: s.bow_tie(), s.dome(5); return true;
        case Part::relief_valve: relief(s); return true;
        case Part::backflow_preventer:
            s.clear(7), s.shape({{-7, -5}, {7, -5}, {7, 5}, {-7, 5}}), s.letter(0, 0, "BF", 6);
            return true;
        default: return false;
    }
}

bool vents(Sign& s, Part part) {
    switch (part) {
        case Part::vent_damper: s.circle(0, 0, 5), s.line(-3.5, 3.5, 3.5, -3.5); return true;
        case Part::vent_collar: s.line(-2, -5, -2, 5), s.line(2, -5, 2, 5); return true;
        case Part::vent_terminal: s.shape({{-5, -5}, {6, 0}, {-5, 5}}); return true;
        case Part::intake_terminal: s.shape({{-5, -5}, {6, 0}, {-5, 5}}), s.line(6, -5, 6, 5); return true;
        default: return false;
    }
}

}  // namespace

void draw_sign(Canvas& canvas, const Spot& spot, Part part, Colour colour) {
    Sign s(canvas, spot, colour);
    if (valves(s, part) || vents(s, part)) return;
    switch (part) {
        case Part::union_joint: s.line(-2, -3.5, -2, 3.5), s.line(0, -5, 0, 5), s.line(2, -3.5, 2, 3.5); break;
        case Part::reducer: s.clear(4), s.shape({{-4, -4.5}, {4, -2}, {4, 2}, {-4, 4.5}}); break;
        case Part::strainer:
            s.clear(6), s.shape({{-6, -3}, {6, -3}, {6, 3}, {-6, 3}}), s.line(-4, 3, 4, -3), s.line(0, 3, 4, 7);
            break;
        case Part::flexible_gas:
        case Part::flexible_water: s.wave(); break;
        case Part::test_port: s.line(0, 0, 0, -6), s.line(-2.5, -6, 2.5, -6), s.line(-1.5, -8, 1.5, -8); break;
        case Part::thermometer: instrument(s, "TI"); break;
        case Part::condensate_pump:
        case Part::pump: s.circle(0, 0, 6.5), s.shape({{-3.2, -5.6}, {6.5, 0}, {-3.2, 5.6}}); break;
        case Part::expansion_vessel: s.circle(0, 0, 7), s.line(0, -7, 0, 7); break;
        case Part::cap: s.line(0, -4.5, 0, 4.5), s.line(1.5, -4.5, 1.5, 4.5); break;
        case Part::air_gap: s.line(-5, -4, 5, -4), s.line(-5, 4, -1, 0.5), s.line(5, 4, 1, 0.5); break;
        default: s.clear(5), s.shape({{-5, -4}, {5, -4}, {5, 4}, {-5, 4}}); break;
    }
}

void draw_pocket(Canvas& canvas, At at, Colour colour) {
    canvas.line(at, {at.x + 8, at.y}, {.width = 1.1, .colour = colour});
    canvas.line({at.x + 8, at.y}, {at.x + 8, at.y + 7}, {.width = 1.1, .colour = colour});
    canvas.line({at.x + 5, at.y + 7}, {at.x + 11, at.y + 7}, {.width = 1.4, .colour = colour});
}

std::string sign_name(Part part) {
    switch (part) {
        case Part::ball_valve: return "ball valve";
        case Part::gas_valve: return "gas shutoff";
        case Part::service_valve_cold: return "service valve, cold, with flushing port";
        case Part::service_valve_hot: return "service valve, hot, with flushing port";
        case Part::check_valve: return "check valve, flow from the filled side";
        case Part::balancing_valve: return "balancing valve";
        case Part::mixing_valve: return "mixing valve";
        case Part::regulator: return "gas regulator";
        case Part::pressure_reducer: return "pressure reducer";
        case Part::relief_valve: return "relief valve, piped to an air gap";
        case Part::backflow_preventer: return "backflow preventer";
        case Part::vent_damper: return "non-return damper";
        case Part::vent_collar: return "heater's collar";
        case Part::vent_terminal: return "exhaust terminal";
        case Part::intake_terminal: return "air inlet";
        case Part::union_joint: return "union";
        case Part::reducer: return "reducer";
        case Part::strainer: return "strainer";
        case Part::flexible_gas:
        case Part::flexible_water: return "flexible connector";
        case Part::test_port: return "test port";
        case Part::thermometer: return "thermometer";
        case Part::pump: return "pump";
        case Part::condensate_pump: return "condensate pump";
        case Part::expansion_vessel: return "expansion vessel";
        case Part::cap: return "capped end";
        case Part::air_gap: return "air gap";
        default: return std::string(text::name(part));
    }
}

void draw_connection(Canvas& canvas, At at, const std::string& letter, Colour colour) {
    canvas.circle(at, 8, {.width = 1.2, .colour = colour}, white);
    canvas.text({at.x, at.y - 5}, letter, {.size = 8, .bold = true, .colour = colour, .anchor = Anchor::centre});
}

void draw_flag(Canvas& canvas, At at, const std::string& name, Colour colour) {
    canvas.polygon(
        {{at.x - 10, at.y - 6}, {at.x + 7, at.y - 6}, {at.x + 12, at.y}, {at.x + 7, at.y + 6}, {at.x - 10, at.y + 6}},
        {.width = 0.9, .colour = colour}, white);
    canvas.text({at.x - 0.5, at.y - 4.4}, name, {.size = 7, .bold = true, .colour = colour, .anchor = Anchor::centre});
}

}  // namespace bw::draw
