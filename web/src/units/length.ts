// SPDX-License-Identifier: MIT
// Lengths as on paper: "6 ft 3-1/2 in", "1.91 m". The page reads and prints them for the plan; the server judges what is typed.

import type { Units } from '../state/settings';

const inch = 0.0254;
const unitOf: { [name: string]: number } = {
    in: inch, inch: inch, inches: inch, '"': inch, '″': inch, ft: 0.3048, feet: 0.3048, foot: 0.3048, "'": 0.3048, '′': 0.3048,
    yd: 0.9144, mm: 0.001, cm: 0.01, m: 1, km: 1000,
};
const number = String.raw`[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[ -]\d+\/\d+|\/\d+)?`;
const part = new RegExp(String.raw`^\s*(${number})\s*([a-z]+|["'″′])\s*-?\s*`, 'i');

function value(text: string): number {
    const sign = text.startsWith('-') ? -1 : 1;
    const plain = text.replace(/^[-+]/, '');
    const mixed = /^(?:(\d+(?:\.\d*)?)[ -])?(\d+)\/(\d+)$/.exec(plain);
    if (!mixed) return sign * Number(plain);
    return sign * (Number(mixed[1] ?? 0) + Number(mixed[2]) / Number(mixed[3]));
}

/** Metres, or null where the text is no length. */
export function readLength(text: unknown): number | null {
    if (typeof text !== 'string') return null;
    let rest = text.trim();
    let total = 0;
    let parts = 0;
    let negative = false;
    while (rest) {
        const found = part.exec(rest);
        const unit = found ? unitOf[found[2]!.toLowerCase()] : undefined;
        if (!found || unit === undefined) return null;
        const one = value(found[1]!) * unit;
        if (parts === 0) negative = found[1]!.startsWith('-');
        total += parts > 0 && negative ? -one : one;
        rest = rest.slice(found[0].length);
        if (++parts > 2) return null;
    }
    return parts > 0 && Number.isFinite(total) ? total : null;
}

function sixteenths(inches: number): string {
    let whole = Math.floor(inches / 16);
    let top = inches - whole * 16;
    let bottom = 16;
    while (top > 0 && top % 2 === 0) {
        top /= 2;
        bottom /= 2;
    }
    if (top === 0) return `${whole}`;
    return whole > 0 ? `${whole}-${top}/${bottom}` : `${top}/${bottom}`;
}

/** A length as it is written on a drawing: to a sixteenth of an inch, or to a millimetre. */
export function printLength(metres: number, units: Units): string {
    if (units === 'si') return `${(Math.round(metres * 1000) / 1000).toFixed(Math.abs(metres) < 10 ? 3 : 2).replace(/\.?0+$/, '')} m`;
    const total = Math.round((Math.abs(metres) / inch) * 16);
    const sign = metres < 0 && total > 0 ? '-' : '';
    const feet = Math.floor(total / 192);
    const rest = total - feet * 192;
    if (rest === 0) return `${sign}${feet} ft`;
    if (feet === 0) return `${sign}${sixteenths(rest)} in`;
    return `${sign}${feet} ft ${sixteenths(rest)} in`;
}

/** The nearest step of the drawing grid: an inch, or a centimetre. */
export function snapLength(metres: number, units: Units, step = units === 'si' ? 0.01 : inch): number {
    return Math.round(metres / step) * step;
}
