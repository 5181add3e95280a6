// SPDX-License-Identifier: MIT
// A view as the server packs it, unpacked for the page.

import type { ByPiece, Candidate, CheckRow, PieceRow, View } from './types';

interface PackedPieces {
    columns: string[];
    parts: string[];
    services: string[];
    items: [string, string][];
    rows: (string | number | null)[][];
}

const unpacked = new WeakMap<PackedPieces, PieceRow[]>();

/** The same rows for the same pieces, so that who looks at them sees whether they are others. */
export function readPieces(packed: PackedPieces | undefined): PieceRow[] {
    if (!packed) return [];
    let rows = unpacked.get(packed);
    if (!rows) unpacked.set(packed, (rows = unpack(packed)));
    return rows;
}

function unpack(packed: PackedPieces): PieceRow[] {
    const column = new Map(packed.columns.map((name, index) => [name, index]));
    const of = (row: (string | number | null)[], name: string) => row[column.get(name) ?? -1] ?? null;
    const listed = <T>(list: T[], index: unknown): T | null => (typeof index === 'number' && index >= 0 ? (list[index] ?? null) : null);
    return packed.rows.map((row) => {
        const item = listed(packed.items, of(row, 'item'));
        return {
            id: String(of(row, 'id')),
            part: listed(packed.parts, of(row, 'part')) ?? '',
            service: listed(packed.services, of(row, 'service')) ?? '',
            item: item?.[0] ?? '',
            title: item?.[1] ?? '',
            size: String(of(row, 'size') ?? ''),
            heater: Number(of(row, 'heater') ?? 0),
            bank: Number(of(row, 'bank') ?? 0),
            cut: of(row, 'cut') as string | null,
        };
    });
}

const noShapes = { boxes: [], rods: [] };
const none = { list: [], of: [] };

/** A piece's own of what pieces share. */
export const ofPiece = <T>(shared: ByPiece<T> | undefined, piece: number): T | null => shared?.list[shared.of[piece] ?? -1] ?? null;

export function readView(packed: any): View {
    return {
        revision: packed.revision,
        settled: packed.settled ?? true,
        layout: packed.layout ?? null,
        shortfalls: packed.shortfalls ?? [],
        capacity: packed.capacity ?? null,
        demand: packed.demand ?? null,
        tally: packed.tally ?? { pass: 0, tight: 0, fail: 0, refer: 0 },
        price: packed.price ?? null,
        checks: packed.checks ?? [],
        candidates: packed.candidates ?? [],
        pieces: readPieces(packed.pieces),
        states: packed.states ?? none,
        whys: packed.whys ?? none,
        geometry: packed.geometry ?? noShapes,
        room: packed.room ?? null,
    };
}

/** The packed view that a change makes of the one before; what is not other stays the same object. */
export function putIn(before: any, change: any): any {
    const next = { ...before, revision: change.revision, settled: change.settled, ...change.parts };
    if (change.checks.length === 0 && !change.order) return next;
    const rows = new Map<string, CheckRow>([...before.checks, ...change.checks].map((check: CheckRow) => [check.id, check]));
    const order: string[] = change.order ?? before.checks.map((check: CheckRow) => check.id);
    next.checks = order.map((id) => rows.get(id)!);
    return next;
}

export const readCandidates = (packed: any): Candidate[] => packed as Candidate[];

/** Rods as the server packs them: piece, radius, number of points, then the points. */
export function eachRod(rods: number[], then: (piece: number, radius: number, points: number[][]) => void): void {
    for (let at = 0; at + 2 < rods.length; ) {
        const count = rods[at + 2]!;
        const points: number[][] = [];
        for (let i = 0; i < count; ++i) points.push(rods.slice(at + 3 + 3 * i, at + 6 + 3 * i));
        then(rods[at]!, rods[at + 1]!, points);
        at += 3 + 3 * count;
    }
}

export function eachBox(boxes: number[], then: (piece: number, box: number[]) => void): void {
    for (let at = 0; at + 6 < boxes.length; at += 7) then(boxes[at]!, boxes.slice(at + 1, at + 7));
}
