// SPDX-License-Identifier: MIT
/** Round steps for an axis, three to six of them. */
export function ticks(low: number, high: number): number[] {
    const span = Math.max(1e-9, high - low);
    const raw = span / 4;
    const power = 10 ** Math.floor(Math.log10(raw));
    const step = [1, 2, 2.5, 5, 10].map((n) => n * power).find((n) => n >= raw)!;
    const out: number[] = [];
    for (let v = Math.ceil(low / step) * step; v <= high + 1e-9; v += step) out.push(v);
    return out;
}
