// SPDX-License-Identifier: MIT
// When an edit was made and when its picture stood: marks on the browser's own clock, read by tests/page/timing.mjs.

let seen = 0;

export function markEdit(): void {
    performance.clearMarks('edit');
    performance.mark('edit');
}

/** A revision's view came from the server. */
export function markCame(revision: number): void {
    performance.clearMarks('came');
    performance.mark('came', { detail: revision });
}

/** A frame of a revision was drawn. */
export function markDrawn(revision: number | undefined): void {
    if (revision === undefined || revision === seen) return;
    seen = revision;
    performance.clearMarks('drawn');
    performance.mark('drawn', { detail: revision });
}

/** A revision's checks and price stand in the page. */
export function markShown(revision: number): void {
    performance.clearMarks('shown');
    performance.mark('shown', { detail: revision });
}
