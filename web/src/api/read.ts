// SPDX-License-Identifier: MIT
// A view as the server packs it, unpacked for the page.

import type { Candidate, PieceRow, View } from './types';

interface PackedPieces {
    columns: string[];
    parts: string[];
    services: string[];
    items: [string, string][];
    whys: string[];
    rows: (string | number | null)[][];
}

export function readPieces(packed: PackedPieces | undefined): PieceRow[] {
    if (!packed) return [];
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
            flow: of(row, 'flow') as string | null,
            from: of(row, 'from') as string | null,
            to: of(row, 'to') as string | null,
            why: listed(packed.whys, of(row, 'why')),
        };
    });
}

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
        geometry: { boxes: packed.geometry?.boxes ?? [], rods: packed.geometry?.rods ?? [] },
        room: packed.room ?? null,
    };
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
