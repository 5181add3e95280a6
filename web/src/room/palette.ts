// SPDX-License-Identifier: MIT
// Inks of the services: those of the sheets, and the same lifted for a dark ground.

type Rgb = readonly [number, number, number];

const inks: { [service: string]: Rgb } = {
    gas: [0.62, 0.44, 0.05], cold: [0.1, 0.33, 0.62], hot: [0.7, 0.15, 0.13], recirculation: [0.5, 0.22, 0.52], exhaust: [0.42, 0.42, 0.44],
    intake: [0.25, 0.5, 0.52], condensate: [0.28, 0.45, 0.12], relief: [0.8, 0.4, 0.1], power: [0.2, 0.2, 0.22], link: [0.35, 0.35, 0.6], structure: [0.62, 0.62, 0.6],
};

export interface Palette {
    ground: number;
    floor: number;
    wall: number;
    line: number;
    soft: number;
    heater: Rgb;
    accent: Rgb;
    fail: Rgb;
    obstacle: Rgb;
    door: number;
    ink: (service: string) => Rgb;
}

const lift = (c: Rgb, by: number): Rgb => [c[0] + (1 - c[0]) * by, c[1] + (1 - c[1]) * by, c[2] + (1 - c[2]) * by];

export const palette = (dark: boolean): Palette => ({
    ground: dark ? 0x14171b : 0xefeade,
    floor: dark ? 0x23292f : 0xe4ddcc,
    wall: dark ? 0x1e2328 : 0xfbfaf6,
    line: dark ? 0x8f99a3 : 0x3a4149,
    soft: dark ? 0x4b545d : 0xb9b2a2,
    heater: dark ? [0.72, 0.73, 0.72] : [0.93, 0.92, 0.89],
    accent: dark ? [1.0, 0.72, 0.2] : [0.98, 0.55, 0.02],
    fail: dark ? [0.95, 0.35, 0.3] : [0.78, 0.12, 0.1],
    obstacle: dark ? [0.35, 0.37, 0.39] : [0.78, 0.75, 0.68],
    door: dark ? 0x3f4a55 : 0xd8d0bd,
    ink: (service) => {
        const c = inks[service] ?? [0.5, 0.5, 0.5];
        return dark ? lift(c, 0.3) : c;
    },
});
