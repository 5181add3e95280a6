// SPDX-License-Identifier: MIT
#include "matter/if97.h"

#include <cmath>

namespace bw::matter::if97 {

namespace {

double power(double base, int exponent) {
    double result = 1;
    double factor = exponent < 0 ? 1 / base : base;
    for (int left = std::abs(exponent); left > 0; left /= 2) {
        if (left % 2 == 1) result *= factor;
        factor *= factor;
    }
    return result;
}

struct RegionTerm {
    int i, j;
    double n;
};

// IAPWS R7-97(2012), Table 2
constexpr RegionTerm region_1[] = {
    {0, -2, 0.14632971213167},        {0, -1, -0.84548187169114},       {0, 0, -0.37563603672040e1},
    {0, 1, 0.33855169168385e1},       {0, 2, -0.95791963387872},        {0, 3, 0.15772038513228},
    {0, 4, -0.16616417199501e-1},     {0, 5, 0.81214629983568e-3},      {1, -9, 0.28319080123804e-3},
    {1, -7, -0.60706301565874e-3},    {1, -1, -0.18990068218419e-1},    {1, 0, -0.32529748770505e-1},
    {1, 1, -0.21841717175414e-1},     {1, 3, -0.52838357969930e-4},     {2, -3, -0.47184321073267e-3},
    {2, 0, -0.30001780793026e-3},     {2, 1, 0.47661393906987e-4},      {2, 3, -0.44141845330846e-5},
    {2, 17, -0.72694996297594e-15},   {3, -4, -0.31679644845054e-4},    {3, 0, -0.28270797985312e-5},
    {3, 6, -0.85205128120103e-9},     {4, -5, -0.22425281908000e-5},    {4, -2, -0.65171222895601e-6},
    {4, 10, -0.14341729937924e-12},   {5, -8, -0.40516996860117e-6},    {8, -11, -0.12734301741641e-8},
    {8, -6, -0.17424871230634e-9},    {21, -29, -0.68762131295531e-18}, {23, -31, 0.14478307828521e-19},
    {29, -38, 0.26335781662795e-22},  {30, -39, -0.11947622640071e-22}, {31, -40, 0.18228094581404e-23},
    {32, -41, -0.93537087292458e-25},
};

constexpr double gas_constant = 461.526;  // J/(kg K), R7-97 equation 1
constexpr double pressure_star = 16.53e6, temperature_star = 1386;

// R7-97(2012), Table 34; n[0] unused so that indices are the release's
constexpr double n[] = {0,
                        0.11670521452767e4,
                        -0.72421316703206e6,
                        -0.17073846940092e2,
                        0.12020824702470e5,
                        -0.32325550322333e7,
                        0.14915108613530e2,
                        -0.48232657361591e4,
                        0.40511340542057e6,
                        -0.23855557567849,
                        0.65017534844798e3};

struct ViscosityTerm {
    int i, j;
    double h;
};

// IAPWS R12-08, Tables 1 and 2
constexpr double dilute[] = {1.67752, 2.20462, 0.6366564, -0.241605};
constexpr ViscosityTerm dense[] = {
    {0, 0, 0.520094},     {1, 0, 0.0850895},  {2, 0, -1.08374},  {3, 0, -0.289555},  {0, 1, 0.222531},
    {1, 1, 0.999115},     {2, 1, 1.88797},    {3, 1, 1.26613},   {5, 1, 0.120573},   {0, 2, -0.281378},
    {1, 2, -0.906851},    {2, 2, -0.772479},  {3, 2, -0.489837}, {4, 2, -0.257040},  {0, 3, 0.161913},
    {1, 3, 0.257399},     {0, 4, -0.0325372}, {3, 4, 0.0698452}, {4, 5, 0.00872102}, {3, 6, -0.00435673},
    {5, 6, -0.000593264},
};

}  // namespace

Liquid liquid(double kelvin, double pascal) {
    const double pi = pascal / pressure_star, tau = temperature_star / kelvin;
    const double a = 7.1 - pi, b = tau - 1.222;
    double by_pi = 0, by_tau = 0, by_tau_tau = 0;  // derivatives of the reduced Gibbs energy
    for (const auto& term : region_1) {
        const double a_i = power(a, term.i), b_j = power(b, term.j);
        by_pi -= term.n * term.i * a_i / a * b_j;
        by_tau += term.n * a_i * term.j * b_j / b;
        by_tau_tau += term.n * a_i * term.j * (term.j - 1) * b_j / (b * b);
    }
    return {pi * by_pi * gas_constant * kelvin / pascal, -gas_constant * tau * tau * by_tau_tau,
            tau * by_tau * gas_constant * kelvin};
}

double saturation_pressure(double kelvin) {
    const double t = kelvin + n[9] / (kelvin - n[10]);
    const double a = t * t + n[1] * t + n[2];
    const double b = n[3] * t * t + n[4] * t + n[5];
    const double c = n[6] * t * t + n[7] * t + n[8];
    return 1e6 * power(2 * c / (-b + std::sqrt(b * b - 4 * a * c)), 4);
}

double saturation_temperature(double pascal) {
    const double beta = std::pow(pascal / 1e6, 0.25);
    const double e = beta * beta + n[3] * beta + n[6];
    const double f = n[1] * beta * beta + n[4] * beta + n[7];
    const double g = n[2] * beta * beta + n[5] * beta + n[8];
    const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
    return (n[10] + d - std::sqrt((n[10] + d) * (n[10] + d) - 4 * (n[9] + n[10] * d))) / 2;
}

double viscosity(double kelvin, double kilogram_per_cubic_metre) {
    const double t = kelvin / 647.096, r = kilogram_per_cubic_metre / 322;
    double sum = 0;
    for (int i = 0; i < 4; ++i) sum += dilute[i] / power(t, i);
    const double thin = 100 * std::sqrt(t) / sum;
    double exponent = 0;
    for (const auto& term : dense) exponent += power(1 / t - 1, term.i) * term.h * power(r - 1, term.j);
    return thin * std::exp(r * exponent) * 1e-6;
}

}  // namespace bw::matter::if97
