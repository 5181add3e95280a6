// SPDX-License-Identifier: MIT
// Two plants line by line.

import type { CheckRow, Quantity, View } from '../api/types';
import { worse } from '../proof/order';
import { printLength } from '../units/length';
import { print, printNumber } from '../units/print';
import { words } from '../words';

const text = words.choice;

export interface Line {
    name: string;
    a: string;
    b: string;
    by: string;
}

function quantityLine(name: string, a: Quantity | undefined, b: Quantity | undefined): Line | null {
    if (!a && !b) return null;
    const alike = a && b && a.unit === b.unit;
    const by = alike ? b.value - a.value : 0;
    const sign = by > 0 ? '+' : '−';
    return { name, a: print(a), b: print(b), by: alike && by !== 0 ? sign + difference(Math.abs(by), a) : '' };
}

/** In the unit as the two are written. */
function difference(by: number, like: Quantity): string {
    if (like.unit === 'in') return printLength(by * 0.0254, 'us');
    const written = like.unit === 'USD' ? null : /[A-Za-z%°].*$/.exec(like.text ?? '');
    return written ? `${printNumber(by)} ${written[0]}` : print({ value: by, unit: like.unit });
}

const whole = (value: number | undefined) => (value === undefined ? undefined : Math.round(value));

function countLine(name: string, a: number | undefined, b: number | undefined): Line | null {
    if (a === undefined || b === undefined) return null;
    return { name, a: printNumber(a), b: printNumber(b), by: a === b ? '' : `${b > a ? '+' : '−'}${printNumber(Math.abs(b - a))}` };
}

export function lines(a: View, b: View): Line[] {
    const l = text.lines;
    return [
        countLine(l.heaters, a.layout?.heaters, b.layout?.heaters),
        quantityLine(l.peak, a.capacity?.flow, b.capacity?.flow),
        quantityLine(l.firm, a.capacity?.['flow-firm'], b.capacity?.['flow-firm']),
        quantityLine(l.floor, a.layout?.['floor-length'], b.layout?.['floor-length']),
        quantityLine(l.area, a.layout?.['floor-area'], b.layout?.['floor-area']),
        quantityLine(l.parts, a.price?.parts, b.price?.parts),
        quantityLine(l.labour, a.price?.labour, b.price?.labour),
        quantityLine(l.markup, a.price?.markup, b.price?.markup),
        quantityLine(l.total, a.price?.total, b.price?.total),
        countLine(l.hours, whole(a.price?.hours), whole(b.price?.hours)),
        quantityLine(l.mass, a.price?.['mass-full'], b.price?.['mass-full']),
        countLine(l.pieces, a.pieces.length, b.pieces.length),
        countLine(l.fail, a.tally.fail, b.tally.fail),
        countLine(l.tight, a.tally.tight, b.tally.tight),
        countLine(l.refer, a.tally.refer, b.tally.refer),
    ].filter((one) => one !== null);
}

/** Checks that do not end the same in both, worst first. */
export function differing(a: View, b: View): { title: string; a?: CheckRow; b?: CheckRow }[] {
    const other = new Map(b.checks.map((check) => [check.id, check]));
    const out: { title: string; a?: CheckRow; b?: CheckRow }[] = [];
    for (const check of a.checks) {
        const mate = other.get(check.id);
        other.delete(check.id);
        if (mate?.status !== check.status && (mate || check.status !== 'pass')) out.push({ title: check.title, a: check, b: mate });
    }
    for (const check of other.values()) if (check.status !== 'pass') out.push({ title: check.title, b: check });
    const worst = (one: { a?: CheckRow; b?: CheckRow }) => (one.a && one.b ? (worse(one.a, one.b) < 0 ? one.a : one.b) : (one.a ?? one.b)!);
    return out.sort((x, y) => worse(worst(x), worst(y)));
}
