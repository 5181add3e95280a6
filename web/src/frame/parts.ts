// SPDX-License-Identifier: MIT
// Which parts of the page show. On a wide screen given, room and proof stand side by side and the rest takes turns below the room;
// on a tablet the room stands over one part; on a phone one part fills the screen.

import { signal } from '@preact/signals';

export const allParts = ['given', 'room', 'drawing', 'proof', 'choice', 'demand', 'papers'] as const;
export type Part = (typeof allParts)[number];

/** The picture: room or plan. */
export const picture = signal<'room' | 'drawing'>('room');
/** What lies below the picture on a wide screen. */
export const below = signal<'choice' | 'demand' | 'papers'>('choice');
/** What fills the screen of a phone, or the lower half of a tablet. */
export const front = signal<Part>('given');

export function showPart(part: Part): void {
    front.value = part;
    if (part === 'room' || part === 'drawing') picture.value = part;
    if (part === 'choice' || part === 'demand' || part === 'papers') below.value = part;
}
