// SPDX-License-Identifier: MIT
#include <array>

#include "survey/fields.h"
#include "survey/words.h"

namespace bw::survey::detail {

using units::Kind;

namespace {

std::span<const Field> water() {
    static const std::array list{
        Field{.path = "supply.pressure",
              .form = Form::quantity,
              .says = "Static pressure of the cold water, gauge.",
              .kind = Kind::pressure,
              .least = "5 psi",
              .greatest = "300 psi",
              .fallback = "60 psi",
              .why = "usual street pressure; common practice, no source",
              .safety = true},
        Field{.path = "supply.hardness",
              .form = Form::quantity,
              .says = "Hardness as CaCO3.",
              .kind = Kind::hardness,
              .least = "0 mg/L",
              .greatest = "2000 mg/L",
              .fallback = "120 mg/L",
              .why = "moderately hard water; ask the water works"},
        Field{.path = "supply.coldest",
              .form = Form::quantity,
              .says = "Coldest water of the year.",
              .kind = Kind::temperature,
              .least = "33 degF",
              .greatest = "95 degF",
              .fallback = "40 degF",
              .why = "cold end of public supplies, so that heaters are not too few; common practice, no source"},
        Field{.path = "supply.mean-air",
              .form = Form::quantity,
              .says = "Mean outdoor air of the year; with the swing, the coldest mains water is found from it.",
              .kind = Kind::temperature,
              .least = "20 degF",
              .greatest = "90 degF"},
        Field{.path = "supply.air-swing",
              .form = Form::quantity,
              .says = "Mean air of the warmest month less that of the coldest.",
              .kind = Kind::temperature_difference,
              .least = "0 degF",
              .greatest = "100 degF"},
        Field{.path = "supply.southern", .form = Form::flag, .says = "South of the equator."},
        Field{
            .path = "supply.closed",
            .form = Form::flag,
            .says = "A check valve, reducer or backflow preventer stands on the service: expansion has nowhere to go.",
            .fallback = "true",
            .why = "the safe side: expansion control is provided",
            .safety = true},

        Field{.path = "site.altitude",
              .form = Form::quantity,
              .says = "Above sea level.",
              .kind = Kind::altitude,
              .least = "-1500 ft",
              .greatest = "12000 ft",
              .fallback = "0 ft",
              .why = "sea level; above 2,000 ft every heater gives less and burners are set for it",
              .safety = true},

        Field{.path = "site.seismic-sds",
              .form = Form::number,
              .says =
                  "Design spectral acceleration at short periods, in g, as the structural engineer gives it; without "
                  "it earthquake checks refer.",
              .least = "0.01",
              .greatest = "4"},
        Field{
            .path = "site.seismic-importance",
            .form = Form::number,
            .says = "Component importance factor; 1 where it is left out, 1.5 for what must work after an earthquake.",
            .least = "1",
            .greatest = "1.5"},
        Field{.path = "site.seismic-height-ratio",
              .form = Form::number,
              .says =
                  "Height of the room's floor over the roof's: 0 at grade, 1 under the roof, which is taken where it "
                  "is left out.",
              .least = "0",
              .greatest = "1"},

        Field{.path = "water.distribution",
              .form = Form::quantity,
              .says = "Leaving the plant.",
              .kind = Kind::temperature,
              .least = "80 degF",
              .greatest = "210 degF",
              .safety = true},
        Field{.path = "water.use",
              .form = Form::quantity,
              .says = "Mixed, at the taps.",
              .kind = Kind::temperature,
              .least = "60 degF",
              .greatest = "180 degF",
              .fallback = "105 degF",
              .why = "comfortable shower; common practice, no source"},

        Field{.path = "recirculation.present", .form = Form::flag, .says = "The building has a recirculation loop."},
        Field{.path = "recirculation.flow",
              .form = Form::quantity,
              .says = "Flow of the loop; left out, it is found from the loss and the drop.",
              .kind = Kind::water_flow,
              .least = "0.1 gpm",
              .greatest = "200 gpm"},
        Field{.path = "recirculation.loss",
              .form = Form::quantity,
              .says = "Heat the loop loses.",
              .kind = Kind::heat_rate,
              .least = "0.1 kBtu/h",
              .greatest = "1000 kBtu/h"},
        Field{.path = "recirculation.drop",
              .form = Form::quantity,
              .says = "Supply to return.",
              .kind = Kind::temperature_difference,
              .least = "2 degF",
              .greatest = "40 degF"},
        Field{.path = "recirculation.head",
              .form = Form::quantity,
              .says = "What the building's loop takes at its flow, where its designer gives it.",
              .kind = Kind::long_length,
              .least = "0.1 ft",
              .greatest = "200 ft"},

        Field{.path = "recirculation.branch.name", .form = Form::text, .says = "What it is called.", .required = true},
        Field{.path = "recirculation.branch.length",
              .form = Form::quantity,
              .says = "Hot pipe from the plant to where the return begins.",
              .kind = Kind::long_length,
              .least = "1 ft",
              .greatest = "5000 ft",
              .required = true},
        Field{.path = "recirculation.branch.size",
              .form = Form::size,
              .says = "Size of the hot pipe, where it has several the smallest.",
              .required = true},
        Field{.path = "recirculation.branch.return-length",
              .form = Form::quantity,
              .says = "Return pipe from there to the plant.",
              .kind = Kind::long_length,
              .least = "1 ft",
              .greatest = "5000 ft"},
        Field{.path = "recirculation.branch.return-size", .form = Form::size, .says = "Size of the return pipe."},
        Field{.path = "recirculation.branch.material",
              .form = Form::word,
              .says = "Of both.",
              .words = water_pipe_words(),
              .fallback = "copper-l",
              .why = "usual for hot water pipe"},
        Field{.path = "recirculation.branch.insulation",
              .form = Form::quantity,
              .says = "Thickness on both; 0 in where the pipe is bare.",
              .kind = Kind::small_length,
              .least = "0 in",
              .greatest = "5 in"},
        Field{.path = "recirculation.branch.fittings",
              .form = Form::quantity,
              .says = "What fittings add to the loss of pressure, as a share of the length.",
              .kind = Kind::percent,
              .least = "0 %",
              .greatest = "300 %",
              .fallback = "50 %",
              .why = "half the length again; common practice, no source"},
    };
    return list;
}

std::span<const Field> gas() {
    static const std::array list{
        Field{
            .path = "gas.kind", .form = Form::word, .says = "Fuel gas.", .words = text::names<Gas>(), .required = true},
        Field{.path = "gas.heating-value",
              .form = Form::quantity,
              .says = "Gross heating value as delivered.",
              .kind = Kind::heating_value,
              .least = "700 Btu/ft3",
              .greatest = "3500 Btu/ft3"},
        Field{.path = "gas.specific-gravity",
              .form = Form::number,
              .says = "Against air.",
              .least = "0.4",
              .greatest = "2.2"},
        Field{.path = "gas.delivery-pressure",
              .form = Form::quantity,
              .says = "Where the plant's gas pipe begins, gauge, everything firing.",
              .kind = Kind::gas_pressure,
              .least = "2 inH2O",
              .greatest = "60 psi",
              .safety = true},
        Field{.path = "gas.allowed-drop",
              .form = Form::quantity,
              .says = "From there to a heater's regulator or inlet.",
              .kind = Kind::gas_pressure,
              .least = "0.05 inH2O",
              .greatest = "50 psi"},
        Field{.path = "gas.meter",
              .form = Form::quantity,
              .says = "Capacity of the meter.",
              .kind = Kind::gas_flow,
              .least = "50 ft3/h",
              .greatest = "200000 ft3/h",
              .safety = true},
        Field{.path = "gas.low-sulphide",
              .form = Form::flag,
              .says = "Not more than 0.3 grain of hydrogen sulphide per 100 ft3, which copper gas pipe needs.",
              .fallback = "false",
              .why = "only copper gas pipe would need it, and none is asked for"},

        Field{.path = "gas.other.name", .form = Form::text, .says = "What it is.", .required = true},
        Field{.path = "gas.other.input",
              .form = Form::quantity,
              .says = "Its greatest input.",
              .kind = Kind::heat_rate,
              .least = "0 kBtu/h",
              .greatest = "50000 kBtu/h",
              .required = true},
    };
    return list;
}

std::vector<Field> both() {
    std::vector<Field> all(water().begin(), water().end());
    all.insert(all.end(), gas().begin(), gas().end());
    return all;
}

}  // namespace

std::span<const Field> service_fields() {
    static const std::vector<Field> list = both();
    return list;
}

}  // namespace bw::survey::detail
