// SPDX-License-Identifier: MIT
// What the pointer or the keyboard rests on: a check lights its pieces, a piece its checks.

import { computed, signal } from '@preact/signals';
import { route } from './route';
import { view } from './view';

/** Check or piece under the pointer. */
export const overCheck = signal<string | null>(null);
export const overPiece = signal<number | null>(null);

const pieceIndex = computed(() => new Map(view.value?.pieces.map((piece, index) => [piece.id, index]) ?? []));
const checkById = computed(() => new Map(view.value?.checks.map((check) => [check.id, check]) ?? []));

export const openPiece = computed(() => {
    const id = route.value.piece;
    return id === null ? null : (pieceIndex.value.get(id) ?? null);
});

/** Pieces to light, by index. */
export const lit = computed<ReadonlySet<number>>(() => {
    const found = new Set<number>();
    const check = overCheck.value ?? route.value.check;
    if (check) checkById.value.get(check)?.pieces.forEach((piece) => found.add(piece));
    if (openPiece.value !== null) found.add(openPiece.value);
    if (overPiece.value !== null) found.add(overPiece.value);
    return found;
});

/** Checks that rest on the piece pointed at or opened. */
export const litChecks = computed<ReadonlySet<string>>(() => {
    const piece = overPiece.value ?? openPiece.value;
    if (piece === null) return new Set();
    return new Set(view.value?.checks.filter((check) => check.pieces.includes(piece)).map((check) => check.id) ?? []);
});
